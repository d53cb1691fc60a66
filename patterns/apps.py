from django.apps import AppConfig


class PatternsConfig(AppConfig):
    name = "patterns"
