"""Stores and one store: what is there, what comes and goes, and a count that is saved whole."""

import re
from datetime import UTC, datetime
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse

from helmwright.records.models import Entry, Movement, Role, Shelf, Store
from helmwright.records.readers.stores import stores
from helmwright.web.desk.stock_history import history_steps
from helmwright.web.desk.stock_take import is_counted_here, read_count
from tests.web.desk_room import Room, fitting_day

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)


@pytest.fixture
def room():
    made = Room(NOW)
    front = made.sheet.pads[1].labels
    made.stock("front", front[0], (600, 4), (60, -5))
    made.stock("front", front[1], (600, 4))
    return made


def as_role(room, role=Role.MANAGER):
    client = Client()
    client.force_login(room.staff[role], "django.contrib.auth.backends.ModelBackend")
    return client


def page(room, role=Role.MANAGER, **asked):
    return as_role(room, role).get(reverse("store", args=[room.store.id]), asked).content.decode()


def done(room, act, role=Role.MANAGER, **fields):
    usual = {"part": f"{room.sheet_row.digest}|front|{room.sheet.pads[1].labels[0]}", "quantity": 2}
    address = reverse("store-act", args=[room.store.id, act])
    return as_role(room, role).post(address, usual | fields)


def on_hand(size_number=0, store=None):
    rows = Shelf.objects.filter(part__place="front").order_by("part__id")
    rows = rows.filter(store=store) if store else rows
    return [row.on_hand for row in rows][size_number]


@pytest.mark.parametrize("role", list(Role))
def test_every_role_may_look_at_stores(room, role):
    assert as_role(room, role).get(reverse("stores")).status_code == 200
    assert as_role(room, role).get(reverse("store", args=[room.store.id])).status_code == 200


def test_a_form_that_is_sent_twice_moves_parts_once(room):
    sent = re.findall('name="once" value="([^"]+)"', page(room))
    assert len(set(sent)) == 3
    before = on_hand(1)
    part = f"{room.sheet_row.digest}|front|{room.sheet.pads[1].labels[1]}"
    for _ in range(2):
        assert done(room, "receive", part=part, once=sent[0]).status_code == 302
    assert on_hand(1) == before + 2
    done(room, "receive", part=part, quantity=5, once=sent[0])
    assert on_hand(1) == before + 2
    done(room, "receive", part=part, once=sent[1])
    assert on_hand(1) == before + 4


def test_a_store_that_is_not_there_is_not_found(room):
    assert as_role(room).get(reverse("store", args=[uuid4()])).status_code == 404
    assert done(room, "burn").status_code == 404


def test_what_is_below_zero_is_told_as_a_difference_to_be_counted(room):
    shown = page(room)
    assert "1 to be counted" in shown
    assert "count it" in shown
    assert "1 part below zero" in as_role(room).get(reverse("stores")).content.decode()


def test_a_store_sums_its_pieces_and_its_helmets(room):
    room.helmet("TV-0001")
    room.helmet("TV-0002", retired_on=NOW.date())
    room.issue(room.visit(room.player("7"), None, 50, 30), room.helmet("TV-0003"))
    row = stores()[0]
    assert (row.pieces, row.kinds, row.to_count, row.helmets) == (4, 2, 1, 1)


def test_parts_that_come_stand_on_the_shelf_with_their_lot(room):
    assert done(room, "receive", quantity=6, lot="L-77").status_code == 302
    assert on_hand() == 5
    assert Movement.objects.get(lot="L-77").quantity == 6


def test_parts_that_move_leave_one_store_and_come_to_the_other(room):
    trunk = room.store_of("Trunk 3")
    assert done(room, "move", Role.STUDENT, to_store=trunk.id).status_code == 302
    assert (on_hand(store=room.store), on_hand(store=trunk)) == (-3, 2)
    assert done(room, "move", to_store=room.store.id).status_code == 422


def test_parts_that_are_scrapped_are_gone(room):
    assert done(room, "scrap").status_code == 302
    assert on_hand() == -3


@pytest.mark.parametrize("quantity", ["0", "-2", "many", ""])
def test_a_quantity_that_is_none_is_asked_again_and_nothing_is_kept(room, quantity):
    answer = done(room, "receive", quantity=quantity)
    assert answer.status_code == 422
    assert "<details open>" in answer.content.decode()
    assert not Entry.objects.exists()


@pytest.mark.parametrize("role", [Role.TRAINER, Role.VIEWER])
def test_who_only_looks_moves_nothing_and_is_offered_nothing(room, role):
    assert done(room, "receive", role).status_code == 403
    assert "What is done here" not in page(room, role)
    count = reverse("store-count", args=[room.store.id])
    assert as_role(room, role).get(count).status_code == 403


def test_a_store_is_opened_once_and_by_a_manager(room):
    address = reverse("store-open")
    assert as_role(room, Role.FITTER).post(address, {"name": "Trunk 3"}).status_code == 403
    assert as_role(room).post(address, {"name": "Trunk 3"}).status_code == 302
    again = as_role(room).post(address, {"name": "Trunk 3"})
    assert again.status_code == 422
    assert "There is a store called Trunk 3 already" in again.content.decode()
    assert Store.objects.count() == 2


def test_the_history_of_a_part_tells_what_came_and_went(room):
    part = Shelf.objects.get(on_hand=-1).part_id
    shown = page(room, part=part)
    assert "5 went: fit" in shown
    assert "4 came: received" in shown
    assert "no such part" not in page(room, part="zebra")


def counting(room, **typed):
    return as_role(room).post(reverse("store-count", args=[room.store.id]), typed)


def name_of(room, number=0):
    return f"{room.sheet_row.digest[:12]}-front-{number}"


def test_differences_are_seen_before_anything_is_saved(room):
    answer = counting(room, **{name_of(room): "3", name_of(room, 1): "4"})
    shown = answer.content.decode()
    assert "2 counted, 1 other than listed" in shown
    assert "4 more than listed" in shown
    assert "Save the count" in shown
    assert not Entry.objects.exists()


def test_a_count_is_saved_as_one_and_the_shelf_is_as_counted(room):
    typed = {name_of(room): "3", name_of(room, 1): "4", f"{name_of(room)}-listed": "-1"}
    answer = counting(room, **typed, save="yes")
    assert answer.status_code == 302
    assert (on_hand(0), on_hand(1)) == (3, 4)
    assert Entry.objects.filter(kind="parts counted").count() == 2
    assert "to be counted" not in page(room)


def test_a_count_with_one_line_that_cannot_be_read_saves_nothing(room):
    answer = counting(room, **{name_of(room): "3", name_of(room, 1): "4.5"}, save="yes")
    assert answer.status_code == 422
    assert "“4.5” is no count" in answer.content.decode()
    assert not Entry.objects.exists()
    assert on_hand(0) == -1


def test_a_count_of_what_moved_meanwhile_saves_nothing_and_says_so(room):
    typed = {name_of(room): "3", f"{name_of(room)}-listed": "0", name_of(room, 1): "9"}
    answer = counting(room, **typed, save="yes")
    assert "moved while you counted" in answer.content.decode()
    assert not Entry.objects.exists()
    assert (on_hand(0), on_hand(1)) == (-1, 4)


def test_a_count_of_nothing_saves_nothing(room):
    answer = counting(room, save="yes")
    assert "Nothing was counted" in answer.content.decode()
    assert not Entry.objects.exists()


@pytest.mark.parametrize(
    ("written", "count"), [("", None), ("0", 0), ("12", 12), ("007", 7), ("100000", 100_000)]
)
def test_counts_are_whole_numbers(written, count):
    assert read_count(written) == (count, "")


@pytest.mark.parametrize("written", ["-1", "1.5", "a", "１２", "100001", "1 2"])
def test_what_is_no_count_is_told(written):
    count, wrong = read_count(written)
    assert count is None
    assert written in wrong


def test_both_sides_are_counted_in_one_row_or_each_in_its_own():
    assert is_counted_here("jaw left", ["front"])
    assert not is_counted_here("jaw", ["front"])
    assert is_counted_here("jaw", ["jaw"])
    assert not is_counted_here("jaw left", ["jaw"])
    assert is_counted_here("jaw left", ["jaw", "jaw left"])


def test_the_picture_of_a_history_has_a_step_for_every_day():
    days = [(datetime(2026, 8, day, tzinfo=UTC).date(), 5 - day) for day in range(1, 7)]
    assert history_steps(days).count('class="stock"') == 6
    assert not history_steps([])


def test_stock_is_drawn_against_need_for_every_part(room):
    shown = as_role(room).get(reverse("stores")).content.decode()
    assert 'class="wanted"' in shown
    assert "style=" not in shown


def test_stores_ask_as_often_for_a_full_day_as_for_an_empty_one(django_assert_max_num_queries):
    room = fitting_day(NOW, players=200)
    client = as_role(room)
    with django_assert_max_num_queries(35):
        assert client.get(reverse("stores")).status_code == 200
    with django_assert_max_num_queries(25):
        client.get(reverse("store", args=[room.store.id]))
