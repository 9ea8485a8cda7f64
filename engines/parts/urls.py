from django.urls import path

from engines.parts import views

app_name = "parts"
urlpatterns = [
    path("", views.items, name="items"),
    path("add/", views.add, name="add"),
    path("<uuid:pk>/", views.item, name="item"),
    path("<uuid:pk>/evidence/", views.book, name="book"),
    path("<uuid:pk>/evidence/<uuid:certificate_pk>/", views.evidence, name="evidence"),
    path("<uuid:pk>/scrap/", views.scrap, name="scrap"),
]
