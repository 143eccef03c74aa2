"""Addresses."""

from django.urls import URLPattern, URLResolver, path

from helmwright.web.desk.player import player
from helmwright.web.desk.roster import roster

urlpatterns: list[URLPattern | URLResolver] = [
    path("roster/", roster, name="roster"),
    path("roster/<uuid:player_id>/", player, name="player"),
]
