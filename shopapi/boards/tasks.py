"""Background work on photographs."""

from django_tasks import task

from shopapi.boards import selectors, services


@task()
def work_on_shot(shot_id: str) -> None:
    shot = selectors.shot_in_sight(shot_id)
    if shot is not None:
        services.shot_work(shot=shot)
