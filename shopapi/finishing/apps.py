from django.apps import AppConfig


class FinishingConfig(AppConfig):
    name = "shopapi.finishing"
    label = "finishing"
