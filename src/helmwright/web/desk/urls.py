"""Addresses."""

from django.urls import URLPattern, URLResolver, path

from helmwright.web.desk import day, stream
from helmwright.web.desk.player import player
from helmwright.web.desk.roster import roster

urlpatterns: list[URLPattern | URLResolver] = [
    path("roster/", roster, name="roster"),
    path("roster/<uuid:player_id>/", player, name="player"),
    path("day/", day.day, name="day"),
    path("day/board", day.day_board, name="day-board"),
    path("day/order/", day.day_order, name="day-order"),
    path("day/stream", stream.day_stream, name="day-stream"),
]
