from django.apps import AppConfig


class CutsConfig(AppConfig):
    name = "shopapi.cuts"
    label = "cuts"
