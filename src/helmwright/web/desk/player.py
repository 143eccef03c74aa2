"""One player: head, helmets, visits, and why this build."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render

from helmwright.records.models import Player
from helmwright.web.allowed import allowed


@allowed("player")
def player(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """Everything that the records hold of one player."""
    found = get_object_or_404(Player, pk=player_id)
    return render(request, "web/desk_player.html", {"player": found})
