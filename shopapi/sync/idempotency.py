"""A write with an `Idempotency-Key` happens once, however often a phone sends it.

The reply is kept in the transaction of the write itself: either both are there or neither. A refused or failed write
keeps nothing, so it may be tried again. The same key with another body is a mistake of the sender: 422.
"""

import hashlib
from collections.abc import Callable
from datetime import timedelta

from django.db import IntegrityError, transaction
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from shopapi.rest import problem_json
from shopapi.sync.models import StoredReply

KEPT_FOR = timedelta(days=60)  # longer than a phone stays in a drawer with unsent work
_UNSAFE = {"POST", "PUT", "PATCH", "DELETE"}


class IdempotencyMiddleware:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        key = request.headers.get("Idempotency-Key", "")
        caller = _caller(request)
        if not key or not caller or request.method not in _UNSAFE or not request.path.startswith("/api/"):
            return self.get_response(request)
        if len(key) > 100:
            return problem_json(400, "The Idempotency-Key is longer than 100 characters.", kind="invalid")
        digest = _digest(request)
        if stored := StoredReply.objects.filter(caller=caller, key=key).first():
            return _replay(stored, digest)
        try:
            with transaction.atomic():
                stored = StoredReply.objects.create(caller=caller, key=key, digest=digest)
                response = self.get_response(request)
                if response.status_code >= 400:
                    transaction.set_rollback(True)
                else:
                    _keep(stored, response)
        except IntegrityError:  # the same write came in twice at once and the other one won
            stored = StoredReply.objects.filter(caller=caller, key=key).first()
            if stored is None:
                raise
            return _replay(stored, digest)
        return response


def _caller(request: HttpRequest) -> str:
    if authorization := request.headers.get("Authorization", ""):
        return "token:" + hashlib.sha256(authorization.encode()).hexdigest()
    user = getattr(request, "user", None)
    return f"user:{user.pk}" if user is not None and user.is_authenticated else ""


def _digest(request: HttpRequest) -> str:
    """Of method, address and content. Uploads are read field by field: their boundary differs at each try."""
    digest = hashlib.sha256(f"{request.method} {request.path}\n".encode())
    if (request.content_type or "").startswith("multipart/"):
        for name in sorted(request.POST):
            digest.update(f"{name}={request.POST.getlist(name)}\n".encode())
        for name in sorted(request.FILES):
            for file in request.FILES.getlist(name):
                digest.update(f"{name}:{file.size}\n".encode())
                for chunk in file.chunks():
                    digest.update(chunk)
                file.seek(0)
    else:
        digest.update(request.body)
    return digest.hexdigest()


def _keep(stored: StoredReply, response: HttpResponse) -> None:
    if hasattr(response, "render") and not getattr(response, "is_rendered", True):
        response.render()
    stored.status = response.status_code
    stored.content_type = response.get("Content-Type", "")
    stored.etag = response.get("ETag", "")
    stored.body = response.content
    stored.save()
    StoredReply.objects.filter(created_at__lt=timezone.now() - KEPT_FOR).delete()


def _replay(stored: StoredReply, digest: str) -> HttpResponse:
    if stored.digest != digest:
        return problem_json(
            422, "This key was used before for something else; nothing was changed.", kind="key-used-before"
        )
    response = HttpResponse(bytes(stored.body), status=stored.status, content_type=stored.content_type or None)
    if stored.etag:
        response["ETag"] = stored.etag
    response["Idempotent-Replay"] = "true"
    return response
