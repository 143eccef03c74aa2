"""One player's page, for every role, with a bounded number of questions."""

from uuid import uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from helmwright.records.models import Role, VisitStep
from tests.web.people import member
from tests.web.players import a_helmet, a_player, a_visit, issued, taped

pytestmark = pytest.mark.django_db
BACKEND = "django.contrib.auth.backends.ModelBackend"


@pytest.fixture
def desk(client):
    """Signs in somebody of a role."""

    def signed_in(role=Role.MANAGER):
        client.force_login(member(role), BACKEND)
        return client

    return signed_in


def page(client, player):
    answer = client.get(f"/roster/{player.pk}/")
    assert answer.status_code == 200
    return answer.content.decode()


def with_everything(readings=2, helmets=1):
    player = a_player(birth_year=2010, worn=["braids or locs"])
    for place in range(readings):
        taped(player, 22.5 + place / 16, over="braids or locs")
    for place in range(helmets):
        visit = a_visit(player, "accepted", found_right=0.61, build={"shell": 4, "pads": {}})
        issued(player, a_helmet(f"TV-{place:04d}"), visit=visit)
        VisitStep.objects.create(
            visit=visit,
            place=1,
            entry=1000 + place,
            event={
                "event": "proposed",
                "build": {"shell": 4, "pads": {"crown": {"pad": "1 1/4", "mm": 31.75}}},
                "fits": 0.52,
                "found_right": 0.61,
                "minutes": 4.0,
                "why": "Three readings put this head in shell 4.",
                "effective": 900.0,
            },
        )
    return player


@pytest.mark.parametrize("role", list(Role))
def test_every_role_sees_head_helmets_and_visits(desk, role):
    text = page(desk(role), with_everything())
    assert "Tape around the head" in text
    assert "TV-0000" in text
    assert "accepted" in text


@pytest.mark.parametrize("role", [Role.STUDENT, Role.VIEWER])
def test_who_has_no_need_of_it_sees_neither_body_nor_guardians(desk, role):
    player = with_everything()
    player.guardians.create(name="Grebe Oakmere", contact="555-0147")
    text = page(desk(role), player)
    assert "Year of birth" not in text
    assert "Grebe Oakmere" not in text
    assert "555-0147" not in text


@pytest.mark.parametrize(
    ("role", "shown", "hidden"),
    [
        (Role.MANAGER, ["measure/", "erase/", "hold/"], []),
        (Role.FITTER, ["measure/", "change/"], ["erase/", "hold/", "leave/"]),
        (Role.TRAINER, [], ["measure/", "change/", "withdraw/", "erase/"]),
    ],
)
def test_nobody_is_offered_what_they_may_not_do(desk, role, shown, hidden):
    text = page(desk(role), with_everything())
    assert all(word in text for word in shown)
    assert not any(word in text for word in hidden)


def test_more_readings_and_helmets_ask_no_more_questions(desk):
    client = desk()

    def asked(player):
        with CaptureQueriesContext(connection) as queries:
            page(client, player)
        return len(queries)

    few = asked(with_everything())
    other = a_player("Dunlin Ashgrove", "8", birth_year=2010)
    for place in range(12):
        taped(other, 22.5, by=member(Role.FITTER, f"fitter-{place}"))
    for place in range(8):
        issued(other, a_helmet(f"TV-1{place:03d}"), visit=a_visit(other, "accepted"))
    assert asked(other) <= few
    assert few <= 30


def test_the_last_proposal_says_why_with_its_chance_of_then(desk):
    text = page(desk(), with_everything())
    assert "Three readings put this head in shell 4." in text
    assert ">61</span> of 100 heads" in text
    assert "truly right: 52 of 100" in text


def test_readings_that_differ_too_much_ask_for_a_third(desk):
    player = a_player()
    taped(player, 22.0)
    taped(player, 22.75)
    text = page(desk(), player)
    assert "take a third" in text
    assert "Take one more reading?" in text


def test_a_misread_number_is_named_at_once(desk):
    player = a_player()
    taped(player, 22.5)
    taped(player, 6.0, measure="head_length")
    taped(player, 7.75, measure="head_breadth")
    text = page(desk(), player)
    assert 'class="finding"' in text


def test_several_helmets_of_one_player_all_stand_there(desk):
    text = page(desk(), with_everything(helmets=3))
    assert all(f"TV-000{place}" in text for place in range(3))
    assert text.count("held now") == 3


def test_a_minor_without_a_guardians_consent_is_told(desk):
    words = "no consent to fitting is kept"
    client = desk()
    assert words in page(client, a_player(birth_year=2012))
    assert words not in page(client, a_player(birth_year=1999))


def test_an_unmeasured_player_has_a_forecast_and_no_estimate_of_readings(desk):
    text = page(desk(), a_player(stature_mm=1850.0, weight_kg=95.0))
    assert "No reading yet" in text
    assert 'class="likely"' in text


def test_a_child_younger_than_any_survey_is_told_and_nothing_breaks(desk):
    player = a_player(birth_year=2025)
    taped(player, 20.0)
    assert "No estimate" in page(desk(), player)


def test_an_erased_player_has_a_page_without_a_name_and_without_acts(desk):
    player = a_player("", "", erased_at="2026-08-01T00:00:00Z", is_here=False)
    text = page(desk(), player)
    assert "measure/" not in text
    assert "change/" not in text
    assert str(player.pk)[-6:] in text


def test_a_player_who_never_was_has_no_page(desk):
    assert desk().get(f"/roster/{uuid4()}/").status_code == 404


def test_a_name_is_never_markup(desk):
    text = page(desk(), a_player("<script>Ibis</script>"))
    assert "<script>Ibis" not in text
