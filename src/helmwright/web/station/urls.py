"""Addresses."""

from django.urls import URLPattern, URLResolver, path

from helmwright.web.station import shell
from helmwright.web.station.entries import entries
from helmwright.web.station.look_over import look_over
from helmwright.web.station.today import find, today
from helmwright.web.station.visit_now import visit_now

urlpatterns: list[URLPattern | URLResolver] = [
    path("", shell.station, name="station"),
    path("sw.js", shell.worker, name="station-worker"),
    path("today", today, name="station-today"),
    path("entries", entries, name="station-entries"),
    path("visits/<uuid:visit>", visit_now, name="station-visit"),
    path("find", find, name="station-find"),
    path("look-over", look_over, name="station-look-over"),
]
