from django.apps import AppConfig


class CommissionsConfig(AppConfig):
    name = "shopapi.commissions"
    label = "commissions"
