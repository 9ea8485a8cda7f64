from django.urls import URLPattern

app_name = "testbench-api"
urlpatterns: list[URLPattern] = []
