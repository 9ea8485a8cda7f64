from django.apps import AppConfig


class BenchesConfig(AppConfig):
    name = "engines.benches"
