from django.urls import URLPattern

app_name = "documents-api"
urlpatterns: list[URLPattern] = []
