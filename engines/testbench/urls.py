from django.urls import URLPattern

app_name = "testbench"
urlpatterns: list[URLPattern] = []
