from django.apps import AppConfig


class ServingConfig(AppConfig):
    name = "shopfloor.serving"
