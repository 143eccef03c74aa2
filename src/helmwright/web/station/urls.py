"""Addresses."""

from django.urls import URLPattern, URLResolver, path

from helmwright.web.station import shell

urlpatterns: list[URLPattern | URLResolver] = [
    path("", shell.station, name="station"),
    path("sw.js", shell.worker, name="station-worker"),
]
