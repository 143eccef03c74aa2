"""The drawing of a player's last build comes after the page, and what hinders it is told."""

import re

import pytest

from helmwright.records.models import Role, VisitStep
from helmwright.web.guiding.asked import Answer
from helmwright.web.guiding.pool import NoAnswerError, put_in_place
from helmwright.web.guiding.worker import answer
from tests.records.room import DIGEST, SHEET, Room
from tests.web.at_a_station import Station
from tests.web.people import member
from tests.web.players import a_player, a_visit

pytestmark = pytest.mark.django_db
BACKEND = "django.contrib.auth.backends.ModelBackend"
ZONE = {
    "zone": "crown", "number": 2, "label": "1 1/4", "expected": "snug", "mean_kpa": 2.1,
    "gap_mm": 0.0,
}  # fmt: skip
FOUND = {
    "stage": "On the head",
    "told": "All as it should be.",
    "on_the_way": ("Front pad: loose at try-on 1; then snug.",),
    "checks": [{"title": "Front pad", "words": "snug"}, {"title": "Crown", "words": "firm"}],
}


class Said:
    """Answers what a test wants; or nothing, in time."""

    def __init__(self, said: Answer | None) -> None:
        self.said = said

    def ask(self, _asked):
        if self.said is None:
            raise NoAnswerError("too late")
        return self.said

    def warm(self):
        """Nothing takes long."""


class Here:
    """Answers in this very process."""

    def ask(self, asked):
        return answer(asked)

    def warm(self):
        """Nothing takes long."""


@pytest.fixture
def guided():
    yield put_in_place
    put_in_place(None)


def drawing(client, player):
    client.force_login(member(Role.VIEWER), BACKEND)
    told = client.get(f"/roster/{player}/drawing")
    assert told.status_code == 200
    return told.content.decode()


def begun(state):
    player = a_player()
    visit = a_visit(player, state, found_right=0.6)
    VisitStep.objects.create(visit=visit, place=0, entry=1, event={"event": "started"})
    return player.pk


def test_a_drawing_has_its_zones_and_what_was_found_in_a_visit_that_is_over(client, guided):
    guided(Said(Answer((), {}, drawing={"now": "<svg></svg>"}, zones=(ZONE,), found=(FOUND,))))
    text = drawing(client, begun("accepted"))
    assert "<svg></svg>" in text
    assert "2 crown" in text
    assert "Front pad: loose at try-on 1; then snug." in text
    assert "Front pad: snug; Crown: firm." in text


def test_what_was_found_in_a_visit_that_goes_on_is_not_told_yet(client, guided):
    guided(Said(Answer((), {}, drawing={"after": "<svg></svg>"}, found=(FOUND,))))
    text = drawing(client, begun("open"))
    assert "<svg></svg>" in text
    assert "loose at try-on 1" not in text


def test_what_was_not_found_in_time_may_be_asked_again(client, guided):
    guided(Said(None))
    assert "in a moment" in drawing(client, begun("open"))


def test_without_a_proposal_there_is_nothing_to_draw(client):
    assert "No drawing" in drawing(client, a_player().pk)


@pytest.mark.slow
def test_a_real_proposal_is_drawn_without_a_style_of_its_own(client, guided):
    room = Room()
    for kind in SHEET.pads:
        for label in kind.labels:
            room.received(str(kind.zone), label, 4)
    for shell in (2, 3, 4):
        room.helmet(f"TV-010{shell}", shell=shell)
    guided(Here())
    station = Station(member(Role.FITTER), room.player().id, room.store, DIGEST)
    station.begin()
    station.look()
    reading = {"measure": "tape_circumference", "value_mm": 575.0}
    station.say({"event": "measured", "readings": [reading, reading]})
    while station.look()["message"]["message"] == "measure":
        station.say({"event": "measure skipped", "measure": station.asked["measure"]})
    text = drawing(client, station.player)
    assert 'class="sections"' in text
    assert "Illustrative" in text
    assert text.count('scope="row"') == len(SHEET.pads)
    assert not re.search(r"<[^>]+\sstyle=|<style", text)
    page = client.get(f"/roster/{station.player}/").content.decode()
    assert "Why this build" in page
    assert "of 100 heads that read like this one" in page
