"""What the API's description says of every route: ways in, refusals, versions, keys."""

from typing import Any

from drf_spectacular.extensions import OpenApiAuthenticationExtension

_PROBLEM = {
    "type": "object",
    "description": "A refusal in words (RFC 9457).",
    "required": ["type", "title", "status", "detail"],
    "properties": {
        "type": {"type": "string"},
        "title": {"type": "string"},
        "status": {"type": "integer"},
        "detail": {"type": "string"},
        "errors": {
            "type": "object",
            "additionalProperties": {"type": "array", "items": {"type": "string"}},
            "description": "Texts by field; texts of no field stand under the empty name.",
        },
        "current": {
            "type": "object",
            "additionalProperties": True,
            "description": "The row as it stands, where somebody changed it meanwhile (412).",
        },
        "ready_at": {"type": "string", "format": "date-time"},
    },
}
_REFUSED = {
    "description": "Refused, in words",
    "content": {"application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}},
}
_KEY = {
    "in": "header",
    "name": "Idempotency-Key",
    "schema": {"type": "string", "maxLength": 100},
    "description": "The same key happens once, however often it is sent.",
}
_VERSION = {
    "in": "header",
    "name": "If-Match",
    "schema": {"type": "string"},
    "description": "The ETag of the version that was changed.",
}


class BearerTokenScheme(OpenApiAuthenticationExtension):
    target_class = "shopapi.workshops.authentication.BearerToken"
    name = "token"

    def get_security_definition(self, auto_schema: Any) -> dict[str, Any]:
        return {"type": "http", "scheme": "bearer"}


class SessionScheme(OpenApiAuthenticationExtension):
    target_class = "shopapi.workshops.authentication.Session"
    name = "session"

    def get_security_definition(self, auto_schema: Any) -> dict[str, Any]:
        return {"type": "apiKey", "in": "cookie", "name": "sessionid"}


def describe_everywhere(result: dict[str, Any], generator: Any, request: Any, public: bool) -> dict[str, Any]:  # noqa: FBT001 - the library's own call
    result["components"].setdefault("schemas", {})["Problem"] = _PROBLEM
    for path in result["paths"].values():
        for method, operation in path.items():
            operation["responses"]["default"] = _REFUSED
            if method in {"post", "put", "patch", "delete"}:
                operation.setdefault("parameters", []).append(_KEY)
            if method in {"put", "patch", "delete"}:
                operation["parameters"].append(_VERSION)
    return result
