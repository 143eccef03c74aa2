"""Where a player stands follows from readings, visits and helmets alone."""

from datetime import UTC, datetime, timedelta

import pytest

from helmwright.records.readers.standing import STANDINGS, VisitFact, standing
from helmwright.web.templatetags.house import SHAPES

EIGHT = datetime(2026, 8, 7, 13, 0, tzinfo=UTC)
NINE = EIGHT + timedelta(hours=1)


def word(*visits, issued_at=None, is_held=None, is_measured=True, refit_why=()):
    held = issued_at is not None if is_held is None else is_held
    return standing(
        is_measured=is_measured,
        visits=visits,
        issued_at=issued_at,
        is_held=held,
        refit_why=refit_why,
    ).word


def visit(state, at=EIGHT, *, is_proposed=False, is_tried=False):
    return VisitFact(state, at, is_proposed, is_tried)


def test_from_unmeasured_to_issued_each_step_has_its_word():
    assert word(is_measured=False) == "unmeasured"
    assert word() == "measured"
    assert word(visit("open")) == "in visit"
    assert word(visit("open", is_proposed=True)) == "proposed"
    assert word(visit("open", is_proposed=True, is_tried=True)) == "in visit"
    assert word(visit("paused", is_proposed=True)) == "paused"
    assert word(visit("accepted")) == "fitted, not signed"
    assert word(visit("accepted"), issued_at=NINE) == "issued"
    assert word(visit("no build")) == "no build"


def test_a_stopped_visit_leaves_a_player_where_he_was():
    assert word(visit("stopped")) == "measured"
    assert word(visit("stopped", NINE), issued_at=EIGHT) == "issued"


def test_a_helmet_that_is_back_does_not_make_its_player_unsigned():
    assert word(visit("accepted"), issued_at=NINE, is_held=False) == "measured"


def test_a_new_visit_of_one_who_holds_a_helmet_is_told_first():
    assert word(visit("open", NINE), issued_at=EIGHT) == "in visit"


def test_a_refit_is_due_only_of_what_is_held():
    assert word(issued_at=EIGHT, refit_why=("hair",)) == "refit due"
    assert word(issued_at=EIGHT, is_held=False, refit_why=("hair",)) == "measured"


@pytest.mark.parametrize("each", STANDINGS, ids=lambda each: each.word)
def test_every_word_has_a_shape(each):
    assert each.mark in SHAPES
