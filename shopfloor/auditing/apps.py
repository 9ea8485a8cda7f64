from django.apps import AppConfig


class AuditingConfig(AppConfig):
    name = "shopfloor.auditing"
