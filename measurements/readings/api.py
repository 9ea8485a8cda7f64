from django.urls import URLPattern

app_name = "readings-api"
urlpatterns: list[URLPattern] = []
