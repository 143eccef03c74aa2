"""Erasing what is personal of a player, and the receipt for it."""

from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from helmwright.records.actions import players
from helmwright.records.actions.players import NotDoneError
from helmwright.records.models import Player
from helmwright.records.projection.erasure import what_keeps
from helmwright.records.readers.people import erasure_receipt
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.desk.asked import now, posted
from helmwright.web.desk.player import player_or_404
from helmwright.web.desk.small_forms import EraseForm


@allowed("player-erase")
def erase(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """What is erased and what stays, and a word to type."""
    player = player_or_404(player_id)
    wanted = player.name or f"erase {player}"
    form = EraseForm(posted(request), wanted=wanted)
    shown = {
        "player": player, "form": form, "wanted": wanted, "keeps": what_keeps(player, now())
    }  # fmt: skip
    if request.method != "POST" or not form.is_valid():
        status = 422 if form.is_bound else 200
        return render(request, "web/desk_erase.html", shown, status=status)
    try:
        players.erase_player(player=player.pk, by=signed_in(request), now=now())
    except NotDoneError as error:
        return render(request, "web/desk_erase.html", shown | {"keeps": str(error)}, status=409)
    return redirect("player-receipt", player.pk)


@allowed("player-receipt")
def receipt(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """What was erased, when and by which entry; to be printed or saved by the person."""
    player = Player.objects.filter(pk=player_id).first()
    found = erasure_receipt(player) if player else None
    if found is None:
        raise Http404("Nothing of such a player was erased.")
    return render(request, "web/desk_receipt.html", {"receipt": found})
