"""Background work of layouts."""

from django_tasks import task

from shopapi.layouts import services
from shopapi.layouts.models import Layout


@task()
def work_out(layout_id: str) -> None:
    layout = Layout.objects.select_related("workshop", "commission").filter(pk=layout_id, gone_at=None).first()
    if layout is not None and layout.state == Layout.State.QUEUED:
        services.layout_work_out(layout=layout)
