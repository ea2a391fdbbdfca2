from django.apps import AppConfig


class WorkshopsConfig(AppConfig):
    name = "shopapi.workshops"
    label = "workshops"
