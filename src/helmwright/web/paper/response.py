"""A PDF as an answer."""

from django.http import HttpResponse


def pdf(content: bytes, name: str) -> HttpResponse:
    """Shown by the browser, or kept under the name; never by a cache in between."""
    answer = HttpResponse(content, content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    answer["Cache-Control"] = "private, no-store"
    return answer
