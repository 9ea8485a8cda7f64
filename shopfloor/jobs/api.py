from django.urls import URLPattern

app_name = "jobs-api"
urlpatterns: list[URLPattern] = []
