from django.urls import URLPattern

app_name = "benches"
urlpatterns: list[URLPattern] = []
