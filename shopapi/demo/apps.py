from django.apps import AppConfig


class DemoConfig(AppConfig):
    name = "shopapi.demo"
    label = "demo"
