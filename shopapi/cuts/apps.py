from django.apps import AppConfig


class CutsConfig(AppConfig):
    name = "shopapi.cuts"
    label = "cuts"

    def ready(self) -> None:
        from shopapi.boards import services as boards
        from shopapi.cuts import services

        if services.pieces_follow_picture not in boards.after_join:
            boards.after_join.append(services.pieces_follow_picture)
