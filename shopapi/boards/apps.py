from django.apps import AppConfig


class BoardsConfig(AppConfig):
    name = "shopapi.boards"
    label = "boards"
