"""Pages with a form on one player: added, changed, measured, answered for, held."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from uuid import UUID

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from helmwright.records.actions import players
from helmwright.records.actions.players import NotDoneError
from helmwright.records.ledger import SameIdError
from helmwright.records.meanwhile import MeanwhileError
from helmwright.records.models import Player, Reading, Team
from helmwright.records.readers.opening import Lack
from helmwright.records.readers.people import is_surely_minor
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.desk.asked import now, posted
from helmwright.web.desk.first_steps import Step, lacked
from helmwright.web.desk.measure_form import MeasureForm
from helmwright.web.desk.once import SENT_BEFORE, once
from helmwright.web.desk.opened import OpenedForm
from helmwright.web.desk.player import player_or_404
from helmwright.web.desk.player_form import PlayerForm
from helmwright.web.desk.small_forms import ConsentForm, GuardianForm, HoldForm


@dataclass(frozen=True, slots=True)
class FormPage:
    """What stands around a form."""

    title: str
    button: str
    template: str = "web/desk_form.html"
    lead: str = ""
    missing: Sequence[Step] = ()


@allowed("player-add")
def add(request: HttpRequest) -> HttpResponse:
    """Put somebody on the roster."""
    team = Team.objects.order_by("name").first()
    form = PlayerForm(posted(request), today=timezone.localdate())
    page = FormPage("Add a player", "Add the player", missing=lacked(request, Lack.TEAM))
    if request.method != "POST" or not form.is_valid():
        return _page(request, form, page, None)
    if team is None:
        form.add_error(None, "The room has no team yet. A manager opens one under Room.")
        return _page(request, form, page, None)
    player = once(request)
    if player is None or not Player.objects.filter(pk=player).exists():
        player = players.add_player(
            team=team.pk,
            fields=form.fields_said(),
            by=signed_in(request),
            now=now(),
            player=player,
        )
    messages.success(request, "On the roster.")
    return redirect("player", player)


@allowed("player-change")
def change(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """What is kept of a player; only what was changed on the page is said."""
    player = player_or_404(player_id)
    form = PlayerForm(posted(request), today=timezone.localdate(), player=player)
    return _answered(
        request,
        form,
        FormPage("Change what is kept", "Keep the changes"),
        player,
        lambda: players.change_player(
            player=player.pk,
            opened=form.opened,
            changed=form.changed,
            by=signed_in(request),
            now=now(),
        ),
        "Kept as it stands here.",
    )


@allowed("player-measure")
def measure(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """Readings, all or none."""
    player = player_or_404(player_id)
    rows = list(Reading.objects.filter(player=player).order_by("at", "id"))
    form = MeasureForm(posted(request), player=player, rows=rows, today=timezone.localdate())
    return _answered(
        request,
        form,
        FormPage("Measure", "Keep the readings", "web/desk_measure.html"),
        player,
        lambda: players.measure_player(
            player=player.pk,
            readings=form.readings,
            by=signed_in(request),
            now=now(),
            first=once(request),
        ),
        "The readings are kept.",
    )


@allowed("player-guardian")
def guardian(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """Who answers for a minor."""
    player = player_or_404(player_id)
    form = GuardianForm(posted(request))
    return _answered(
        request,
        form,
        FormPage("Add a guardian", "Add the guardian", lead="Keep no more than is needed."),
        player,
        lambda: players.add_guardian(
            player=player.pk, by=signed_in(request), now=now(), **form.cleaned_data
        ),
        "The guardian is kept.",
    )


@allowed("player-consent")
def consent(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """Who agreed to what."""
    player = player_or_404(player_id)
    form = ConsentForm(
        posted(request),
        guardians=list(player.guardians.order_by("name")),
        surely_minor=is_surely_minor(player, timezone.localdate()),
    )
    return _answered(
        request,
        form,
        FormPage(
            "Keep a consent",
            "Keep the consent",
            lead="Only what somebody agreed to, in person or on paper that is kept.",
        ),
        player,
        lambda: players.keep_consent(
            player=player.pk,
            guardian=form.guardian,
            about=form.cleaned_data["about"],
            on_paper=form.on_paper,
            by=signed_in(request),
            now=now(),
        ),
        "The consent is kept.",
    )


@allowed("player-hold")
def hold(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """Nothing is erased before a day."""
    player = player_or_404(player_id)
    form = HoldForm(posted(request), today=timezone.localdate(), until=player.hold_until)
    return _answered(
        request,
        form,
        FormPage(
            "Retention hold",
            "Set the hold",
            lead="Until the day nothing of this player can be erased. Leave the day blank to lift "
            "the hold. How long records are kept is for the program and its counsel to say.",
        ),
        player,
        lambda: players.hold_record(
            player=player.pk,
            opened=form.opened,
            by=signed_in(request),
            now=now(),
            **form.cleaned_data,
        ),
        "The hold is set." if request.POST.get("until") else "The hold is lifted.",
    )


def _answered(
    request: HttpRequest,
    form: forms.Form,
    page: FormPage,
    player: Player,
    act: Callable[[], object],
    said: str,
) -> HttpResponse:
    """The form, or what was done with it; what has no effect is told beside what was written."""
    if request.method != "POST" or not form.is_valid():
        return _page(request, form, page, player)
    try:
        act()
    except MeanwhileError as error:
        if not isinstance(form, OpenedForm):
            raise
        form.ask(error)
        return _page(request, form, page, player)
    except (NotDoneError, SameIdError) as error:
        form.add_error(None, SENT_BEFORE if isinstance(error, SameIdError) else str(error))
        return _page(request, form, page, player)
    messages.success(request, said)
    return redirect("player", player.pk)


def _page(
    request: HttpRequest, form: forms.Form, page: FormPage, player: Player | None
) -> HttpResponse:
    status = 422 if form.is_bound else 200
    shown = {"form": form, "page": page, "player": player}
    return render(request, page.template, shown, status=status)
