from django.urls import path

from engines.benches import views

app_name = "benches"
urlpatterns = [
    path("", views.home, name="home"),
    path("gallery/", views.gallery, name="gallery"),
]
