from django.apps import AppConfig


class PacketsConfig(AppConfig):
    name = "shopapi.packets"
    label = "packets"
