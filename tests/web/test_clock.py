"""The clock as a tape, and words on what may run out."""

from datetime import UTC, datetime, timedelta

import pytest

from helmwright.catalogue import load_packaged
from helmwright.web.desk.clock import Clock
from helmwright.web.desk.part_words import is_written_in_inches, place_words, size_words

NOW = datetime(2026, 8, 7, 15, 36, tzinfo=UTC)
CLOCK = Clock.around(NOW - timedelta(hours=2), NOW + timedelta(hours=1), NOW)


def test_the_tape_goes_from_half_hour_to_half_hour_and_holds_both_ends():
    assert CLOCK.begins == datetime(2026, 8, 7, 13, 30, tzinfo=UTC)
    assert CLOCK.ends == datetime(2026, 8, 7, 17, 0, tzinfo=UTC)


@pytest.mark.parametrize("minutes", [-600, -60, 0, 30, 600])
def test_every_moment_has_a_place_on_the_tape(minutes):
    assert 0 <= CLOCK.at(NOW + timedelta(minutes=minutes)) <= 100


def test_the_tape_is_pulled_out_as_far_as_it_is_now():
    assert CLOCK.here == pytest.approx(100 * 126 / 210)
    assert 'class="tape" x="0%" y="0" width="60%"' in CLOCK.tape()


def test_hours_are_written_once_and_not_where_the_line_would_cut_them():
    assert CLOCK.tape().count(">10:00<") == 1
    assert ">9:00<" in CLOCK.tape()


@pytest.mark.parametrize("model", ["ouzel", "redstart", "siskin", "wren"])
def test_sizes_in_inches_are_built_and_said_as_fractions(model):
    for kind in load_packaged(model).pads:
        for label, thickness in zip(kind.labels, kind.thicknesses_mm, strict=True):
            if is_written_in_inches(label, thickness):
                assert 'class="inches"' in size_words(label, thickness)


@pytest.mark.parametrize(
    ("size", "mm", "is_inches"),
    [("1 1/4 in", 31.75, True), ("5/8", 15.875, True), ("1 in", 25.4, True), ("M", 25.4, False)],
)
def test_a_size_is_only_called_inches_where_the_bag_says_so(size, mm, is_inches):
    assert is_written_in_inches(size, mm) is is_inches
    assert ("inches" in size_words(size, mm)) is is_inches


def test_places_are_named_as_people_name_them():
    assert place_words("front") == "front pad"
    assert place_words("jaw") == "jaw pad, left or right"
