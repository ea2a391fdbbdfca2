"""Background work on photographs."""

from django_tasks import task

from shopapi.boards import selectors, services


@task()
def work_on_shot(shot_id: str) -> None:
    shot = selectors.shot_in_sight(shot_id)
    if shot is not None:
        services.shot_work(shot=shot)


@task()
def work_on_face(face_id: str) -> None:
    face = selectors.face_in_sight(face_id)
    if face is not None:
        services.face_work(face=face)
