from django.urls import path

from engines.packs import views

app_name = "packs"
urlpatterns = [
    path("", views.packs, name="packs"),
    path("load/", views.load, name="load"),
    path("<uuid:pk>/", views.pack, name="pack"),
    path("<uuid:pk>/check/", views.check, name="check"),
    path("<uuid:pk>/approve/", views.approve, name="approve"),
    path("<uuid:pk>/against/<uuid:older_pk>/", views.compare, name="compare"),
]
