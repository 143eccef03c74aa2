"""Addresses."""

from django.urls import URLPattern, URLResolver, include, path

from helmwright.web.desk import day, stream

urlpatterns: list[URLPattern | URLResolver] = [
    path("roster/", include("helmwright.web.desk.roster_urls")),
    path("day/", day.day, name="day"),
    path("day/board", day.day_board, name="day-board"),
    path("day/order/", day.day_order, name="day-order"),
    path("day/stream", stream.day_stream, name="day-stream"),
]
