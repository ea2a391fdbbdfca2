from django.apps import AppConfig


class OpeningConfig(AppConfig):
    name = "shopapi.opening"
    label = "opening"
