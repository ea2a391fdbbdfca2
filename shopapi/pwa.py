"""Serves the built phone app: the shell at every page address, the worker at the root, the rest as files."""

from pathlib import Path

from django.conf import settings
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase

_TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".ico": "image/x-icon",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
}
_POLICY = (
    "default-src 'self'; img-src 'self' blob: data:; style-src 'self' 'unsafe-inline'; "
    "connect-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'"
)
_NOT_BUILT = (
    "The phone app is not built yet. Run: python manage.py open_shop (it builds it), "
    "or npm ci && npm run build in the folder frontend."
)


def shell(request: HttpRequest, path: str = "") -> HttpResponseBase:
    """A built file by its name; the page itself for `/`."""
    dist: Path = settings.FRONTEND_DIST
    file = (dist / (path or "index.html")).resolve()
    if not file.is_relative_to(dist.resolve()) or not file.is_file():
        if path:
            raise Http404
        return HttpResponse(_NOT_BUILT, status=503, content_type="text/plain; charset=utf-8")
    response = FileResponse(file.open("rb"), content_type=_TYPES.get(file.suffix, "application/octet-stream"))
    # Names under assets/ carry a digest; everything else (page, worker, manifest) must be asked for anew.
    response["Cache-Control"] = "public, max-age=31536000, immutable" if path.startswith("assets/") else "no-cache"
    if file.suffix == ".html":
        response["Content-Security-Policy"] = _POLICY
        response["Referrer-Policy"] = "same-origin"
    return response
