from django.apps import AppConfig


class MarksConfig(AppConfig):
    name = "shopapi.marks"
    label = "marks"

    def ready(self) -> None:
        from shopapi.boards import services as boards
        from shopapi.marks import services

        if services.marks_follow_board not in boards.after_resize:
            boards.after_resize.append(services.marks_follow_board)
