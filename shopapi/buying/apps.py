from django.apps import AppConfig


class BuyingConfig(AppConfig):
    name = "shopapi.buying"
    label = "buying"
