from django.apps import AppConfig


class PartsConfig(AppConfig):
    name = "engines.parts"
