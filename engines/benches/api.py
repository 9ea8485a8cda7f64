from django.urls import URLPattern

app_name = "benches-api"
urlpatterns: list[URLPattern] = []
