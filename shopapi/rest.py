"""The one error shape (RFC 9457 problem details) and the one way of paging."""

from collections.abc import Iterable
from typing import Any

from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, JsonResponse
from rest_framework import exceptions, negotiation, pagination, status
from rest_framework.request import Request
from rest_framework.response import Response

MEDIA_TYPE = "application/problem+json"

_TITLES = {
    400: "Something in it is not right",
    401: "Sign in first",
    403: "Not yours to do",
    404: "Not found",
    405: "Not possible here",
    409: "Not yet",
    412: "Changed meanwhile",
    413: "Too large",
    415: "Wrong kind of data",
    422: "Does not match",
    428: "Say which version you changed",
    429: "Too many tries",
}


class JsonOrFile(negotiation.DefaultContentNegotiation):
    """Answers are JSON or a file, whatever a browser says it would rather have (an <img> asks for pictures only)."""

    def select_renderer(self, request: Request, renderers: Iterable[Any], format_suffix: str | None = None) -> Any:
        first = next(iter(renderers))
        return first, first.media_type


class Pages(pagination.PageNumberPagination):
    page_size = 100
    page_size_query_param = "page_size"
    max_page_size = 500


class Refusal(exceptions.APIException):
    """A refusal in the maker's words, with facts the screen can use."""

    status_code: int = status.HTTP_409_CONFLICT

    def __init__(self, detail: str, *, status_code: int | None = None, kind: str = "", **facts: Any) -> None:
        super().__init__(detail)
        self.kind = kind
        self.facts = facts
        if status_code:
            self.status_code = status_code


def problem(code: int, detail: str, *, kind: str = "", **facts: Any) -> dict[str, Any]:
    """The body of a refusal; `kind` tells programs which one it is."""
    return {
        "type": f"urn:flitchbook:problem:{kind}" if kind else "about:blank",
        "title": _TITLES.get(code, "It did not work"),
        "status": code,
        "detail": detail,
        **facts,
    }


def problem_json(code: int, detail: str, *, kind: str = "") -> JsonResponse:
    """For middleware and plain views, outside of the REST framework."""
    return JsonResponse(problem(code, detail, kind=kind), status=code, content_type=MEDIA_TYPE)


def problem_response(exc: Exception, context: dict[str, Any]) -> Response | None:
    from rest_framework.views import set_rollback  # that module reads its own defaults from this one

    if isinstance(exc, Http404):
        exc = exceptions.NotFound("There is nothing here by that name.")
    elif isinstance(exc, PermissionDenied):
        exc = exceptions.PermissionDenied()
    if not isinstance(exc, exceptions.APIException):
        return None
    headers = {}
    if auth_header := getattr(exc, "auth_header", None):
        headers["WWW-Authenticate"] = auth_header
    if wait := getattr(exc, "wait", None):
        headers["Retry-After"] = str(int(wait))
    set_rollback()
    return Response(_body(exc), status=exc.status_code, headers=headers, content_type=MEDIA_TYPE)


def _body(exc: exceptions.APIException) -> dict[str, Any]:
    code = exc.status_code
    if isinstance(exc, Refusal):
        return problem(code, str(exc.detail), kind=exc.kind, **exc.facts)
    if isinstance(exc, exceptions.ValidationError):
        errors = _flat(exc.detail)
        return problem(code, _first_words(errors), kind="invalid", errors=errors)
    return problem(code, str(exc.detail))


def _flat(detail: Any, path: str = "") -> dict[str, list[str]]:
    """Nested messages as {"field.part": [texts]}; messages of no field stand under ""."""
    if isinstance(detail, dict):
        found: dict[str, list[str]] = {}
        for key, value in detail.items():
            name = "" if key == "non_field_errors" else str(key)
            found |= _flat(value, ".".join(filter(None, [path, name])))
        return found
    if isinstance(detail, list) and any(isinstance(item, dict | list) for item in detail):
        found = {}
        for index, item in enumerate(detail):
            found |= _flat(item, f"{path}.{index}" if path else str(index))
        return found
    texts = detail if isinstance(detail, list) else [detail]
    return {path: [str(text) for text in texts]}


def _first_words(errors: dict[str, list[str]]) -> str:
    field, texts = next(iter(errors.items()), ("", ["It could not be read."]))
    return f"{field.replace('_', ' ')}: {texts[0]}" if field else texts[0]


def api_not_found(request: HttpRequest, **_: Any) -> JsonResponse:
    return problem_json(404, "There is no such address in this service.")


def server_error(request: HttpRequest) -> JsonResponse:
    return problem_json(500, "The shop's computer stumbled over this. Nothing was saved; it is worth trying again.")
