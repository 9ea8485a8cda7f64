from django.urls import URLPattern

app_name = "people-api"
urlpatterns: list[URLPattern] = []
