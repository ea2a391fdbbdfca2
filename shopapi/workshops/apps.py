from django.apps import AppConfig


class WorkshopsConfig(AppConfig):
    name = "shopapi.workshops"
    label = "workshops"

    def ready(self) -> None:
        from shopapi.workshops import schema  # noqa: F401 - makes the ways in known to the API's description
