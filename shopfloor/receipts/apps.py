from django.apps import AppConfig


class ReceiptsConfig(AppConfig):
    name = "shopfloor.receipts"
