"""The roster says where everybody stands, on one scale, without asking anything twice."""

import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from helmwright.records.models import Role
from tests.web.players import (
    a_helmet,
    a_player,
    a_sheet,
    a_team,
    a_visit,
    five_hundred,
    issued,
    staff_of,
    taped,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def manager(client):
    client.force_login(staff_of(Role.MANAGER), backend="django.contrib.auth.backends.ModelBackend")
    return client


def page(client, query=""):
    answer = client.get(f"/roster/{query}")
    assert answer.status_code == 200
    return answer.content.decode()


def rows(text):
    return re.findall(r'<tr role="row" data-find="([^"]*)"', text)


def asked(client):
    with CaptureQueriesContext(connection) as queries:
        page(client)
    return len(queries)


def test_five_hundred_players_take_as_many_queries_as_three(manager):
    for place in range(3):
        player = a_player(f"Tern Oakmere {place}", str(place))
        taped(player, 22.5)
        visit = a_visit(player, "accepted")
        issued(player, a_helmet(f"TV-9{place:03d}"), visit=visit)
    few = asked(manager)
    five_hundred()
    assert asked(manager) <= few
    assert few <= 14
    assert len(rows(page(manager))) == 503


def test_every_role_may_look(client):
    a_player()
    for role in Role:
        client.force_login(staff_of(role), backend="django.contrib.auth.backends.ModelBackend")
        assert "Avocet Brookside" in page(client)


def test_a_room_without_players_says_what_to_do(manager):
    a_team()
    assert "Nobody is on the roster yet" in page(manager)


def test_a_filter_keeps_those_who_stand_so_and_counts_all(manager):
    unmeasured, measured = a_player("Teal Fernvale", "7"), a_player("Coot Westlake", "8")
    taped(measured, 22.5)
    text = page(manager, "?standing=unmeasured")
    assert rows(text) == [f"7 {unmeasured.name.lower()}"]
    assert len(re.findall(r'class="filter[ "]', text)) == 3


@pytest.mark.parametrize("find", ["8", "#8", "coot", "WESTLAKE"])
def test_a_player_is_found_by_number_or_part_of_the_name(manager, find):
    a_player("Teal Fernvale", "88"), a_player("Coot Westlake", "8")
    assert rows(page(manager, "?" + f"find={find}".replace("#", "%23"))) == ["8 coot westlake"]


def test_two_players_with_one_number_are_both_there_and_told(manager):
    a_player("Teal Fernvale", "8"), a_player("Coot Westlake", "8")
    text = page(manager)
    assert len(rows(text)) == 2
    assert text.count("number shared") == 2


def test_two_stands_before_eleven(manager):
    for number in ("11", "2", "", "100"):
        a_player(f"Wren Hollow {number}", number)
    assert [row.split(" ")[0] for row in rows(page(manager))] == ["2", "11", "100", ""]


def test_those_who_left_and_those_erased_are_not_on_it(manager):
    a_player("Gone Loon", "1", is_here=False)
    erased = a_player("", "")
    erased.erased_at = "2026-08-01T00:00:00Z"
    erased.save()
    assert rows(page(manager)) == []


def test_a_name_is_never_markup(manager):
    a_player("<b>Ibis</b>", '"><b>')
    text = page(manager)
    assert "<b>Ibis" not in text


def test_the_page_has_no_style_of_its_own(manager):
    a_sheet()
    taped(a_player(), 22.625)
    assert not re.search(r"<[^>]+\sstyle=|<style", page(manager))
