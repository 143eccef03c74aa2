"""Addresses of the roster and of one player."""

from django.urls import URLPattern, URLResolver, path

from helmwright.web.desk import player_acts, player_edit, player_erase
from helmwright.web.desk.player import player
from helmwright.web.desk.player_drawing import player_drawing
from helmwright.web.desk.roster import roster

ONE = "<uuid:player_id>/"

urlpatterns: list[URLPattern | URLResolver] = [
    path("", roster, name="roster"),
    path("add/", player_edit.add, name="player-add"),
    path(ONE, player, name="player"),
    path(f"{ONE}drawing", player_drawing, name="player-drawing"),
    path(f"{ONE}change/", player_edit.change, name="player-change"),
    path(f"{ONE}measure/", player_edit.measure, name="player-measure"),
    path(f"{ONE}withdraw/<uuid:reading_id>/", player_acts.withdraw, name="player-withdraw"),
    path(f"{ONE}leave/", player_acts.leave, name="player-leave"),
    path(f"{ONE}return/", player_acts.come_back, name="player-return"),
    path(f"{ONE}guardian/", player_edit.guardian, name="player-guardian"),
    path(f"{ONE}consent/", player_edit.consent, name="player-consent"),
    path(f"{ONE}take-back/<uuid:consent_id>/", player_acts.take_back, name="player-take-back"),
    path(f"{ONE}hold/", player_edit.hold, name="player-hold"),
    path(f"{ONE}erase/", player_erase.erase, name="player-erase"),
    path(f"{ONE}receipt/", player_erase.receipt, name="player-receipt"),
]
