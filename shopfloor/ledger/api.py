from django.urls import URLPattern

app_name = "ledger-api"
urlpatterns: list[URLPattern] = []
