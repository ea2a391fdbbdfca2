from django.apps import AppConfig


class LayoutsConfig(AppConfig):
    name = "shopapi.layouts"
    label = "layouts"
