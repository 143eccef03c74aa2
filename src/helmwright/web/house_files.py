"""Styles, scripts and fonts, out of the package itself."""

from django.http import HttpRequest, HttpResponse
from whitenoise.middleware import WhiteNoiseMiddleware
from whitenoise.responders import StaticFile


class HouseFilesMiddleware(WhiteNoiseMiddleware):  # type: ignore[misc]  # it has no types
    """WhiteNoise, whose files go out whole.

    They are small, and an asynchronous server cannot stream a file that is read synchronously.
    """

    @staticmethod
    def serve(static_file: StaticFile, request: HttpRequest) -> HttpResponse:
        """The file, or that the browser has it."""
        found = static_file.get_response(request.method, request.META)
        body = b""
        if found.file is not None:
            with found.file as file:
                body = file.read()
        response = HttpResponse(body, status=int(found.status))
        del response["content-type"]
        for name, value in found.headers:
            response[name] = value
        return response
