from django.apps import AppConfig


class WorkingsConfig(AppConfig):
    name = "shopapi.workings"
    label = "workings"
