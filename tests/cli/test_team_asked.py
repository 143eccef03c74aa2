"""The team that a room begins with, asked for at the first start."""

from types import SimpleNamespace

import click
import pytest

from helmwright.cli import team_asked
from helmwright.cli.stop import NothingRan
from helmwright.cli.team_asked import have_a_team
from helmwright.records.models import Entry, Season, Team

pytestmark = pytest.mark.django_db


@pytest.fixture
def typed(monkeypatch):
    """What somebody at a terminal types, line by line; what is left was not asked for."""
    lines: list[str] = []
    at_terminal = SimpleNamespace(stdin=SimpleNamespace(isatty=lambda: True))
    monkeypatch.setattr(team_asked, "sys", at_terminal)
    monkeypatch.setattr(click, "prompt", lambda _: lines.pop(0))
    return lines


def test_the_name_is_asked_for_until_it_will_do_and_never_again(typed, capsys):
    typed += ["  ", "K" * 81, " Kingfishers ", "Herons"]
    have_a_team(None)
    assert capsys.readouterr().err.count("A name has 1 to 80 letters") == 2
    assert Season.objects.get(is_open=True).team.name == "Kingfishers"
    have_a_team(None)
    assert typed == ["Herons"]
    assert Team.objects.count() == 1


def test_a_name_that_is_given_is_not_asked_for(typed):
    typed += ["Herons"]
    have_a_team("Kingfishers")
    assert (typed, Team.objects.get().name) == (["Herons"], "Kingfishers")


def test_without_a_terminal_and_a_name_the_room_opens_and_says_what_is_missing(monkeypatch, capsys):
    away = SimpleNamespace(stdin=SimpleNamespace(isatty=lambda: False))
    monkeypatch.setattr(team_asked, "sys", away)
    have_a_team(None)
    assert not Team.objects.exists()
    assert "this room has no team yet" in capsys.readouterr().err


def test_another_team_than_the_room_has_is_refused():
    have_a_team("Kingfishers")
    before = Entry.objects.count()
    with pytest.raises(NothingRan, match="has a team already: Kingfishers"):
        have_a_team("Herons")
    have_a_team(" Kingfishers ")
    assert Entry.objects.count() == before
