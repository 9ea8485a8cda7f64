from django.apps import AppConfig


class PacksConfig(AppConfig):
    name = "engines.packs"
