"""What is done with one player at the press of a button."""

from collections.abc import Callable
from functools import partial
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from helmwright.records.actions import players
from helmwright.records.actions.players import NotDoneError
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.desk.asked import now
from helmwright.web.desk.player import player_or_404


@allowed("player-withdraw")
@require_POST
def withdraw(request: HttpRequest, player_id: UUID, reading_id: UUID) -> HttpResponse:
    """A reading was wrong."""
    return _did(
        request,
        player_id,
        partial(players.withdraw_reading, reading=reading_id),
        "The reading is withdrawn. It stays on record, and nothing leans on it any more.",
    )


@allowed("player-leave")
@require_POST
def leave(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """Off the roster."""
    return _did(
        request, player_id, players.player_leaves, "Not on the roster any more. The record stays."
    )


@allowed("player-return")
@require_POST
def come_back(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """On the roster again."""
    return _did(request, player_id, players.player_comes_back, "On the roster again.")


@allowed("player-take-back")
@require_POST
def take_back(request: HttpRequest, player_id: UUID, consent_id: UUID) -> HttpResponse:
    """A consent holds no more."""
    return _did(
        request,
        player_id,
        partial(players.take_back_consent, consent=consent_id),
        "The consent is taken back.",
    )


def _did(
    request: HttpRequest, player_id: UUID, act: Callable[..., object], said: str
) -> HttpResponse:
    """Do it, and say so on the player's page; or say why it has no effect."""
    player_or_404(player_id)
    try:
        act(player=player_id, by=signed_in(request), now=now())
    except NotDoneError as error:
        messages.error(request, str(error))
    else:
        messages.success(request, said)
    return redirect("player", player_id)
