"""What counts as a signature, and what becomes of an acknowledgment without one."""

import pytest
from pydantic import ValidationError

from helmwright.records.kinds.payload import UnfitError
from helmwright.records.kinds.visits import Acknowledged
from helmwright.records.ledger import payload_of
from helmwright.records.models import Acknowledgment, Entry, Private
from helmwright.records.signature import LEAST_DRAWN, drawn_length, is_signature
from tests.records.entries import a_player, a_team, tell

DRAWN = [[[0, 0], [30, 40]], [[10, 10]]]


@pytest.mark.parametrize("said", ["", " ", "A", "12 34", [], [[]], [[[5, 5]]], [[[0, 0], [3, 4]]]])
def test_a_dot_a_letter_and_nothing_are_no_signature(said):
    assert not is_signature(said)


@pytest.mark.parametrize("said", ["Ab", "李明", "J. Ø", DRAWN, [[[0, 0], [0, LEAST_DRAWN]]]])
def test_two_letters_of_any_script_and_a_line_are_one(said):
    assert is_signature(said)


def test_the_length_is_that_of_all_strokes_and_not_of_the_ways_between_them():
    assert drawn_length(DRAWN) == pytest.approx(50.0)


@pytest.mark.parametrize("said", [[[[0, 0], [1]]], [[["a", 0]]], {"x": 1}, [[[0, float("inf")]]]])
def test_what_is_no_stroke_is_refused_before_it_is_said(said):
    with pytest.raises(ValidationError):
        Acknowledged.model_validate({"player": "0198f0c0-0000-7000-8000-000000000001",
                                     "text_version": "1", "player_signature": said})  # fmt: skip


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("player_signed", "fitter_signed", "whose"),
    [("", "Dunlin Fen", "player"), ("Avocet Brookside", [[[1, 1]]], "fitter")],
)
def test_who_did_not_sign_did_not_acknowledge(player_signed, fitter_signed, whose):
    player, count = a_player(a_team()), Entry.objects.count()
    said = Acknowledged.model_validate(
        {
            "player": player.id,
            "text_version": "1",
            "player_signature": player_signed,
            "fitter_signature": fitter_signed,
        }
    )
    with pytest.raises(UnfitError, match=f"no signature of the {whose}; sign with a finger"):
        tell(said)
    assert Entry.objects.count() == count
    assert not Acknowledgment.objects.exists()


@pytest.mark.django_db
def test_a_signature_that_was_erased_later_leaves_the_acknowledgment():
    said = Acknowledged.model_validate(
        {
            "player": a_player(a_team()).id,
            "text_version": "1",
            "player_signature": DRAWN,
            "fitter_signature": "Dunlin Fen",
        }
    )
    kept = tell(said)
    assert kept.is_taken
    assert payload_of(kept.entry) == said
    Private.objects.filter(entry=kept.entry).delete()
    assert payload_of(kept.entry).model_dump()["player_signature"] == ""
