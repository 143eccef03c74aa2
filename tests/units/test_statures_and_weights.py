"""Statures and weights as rosters write them."""

import pytest

from helmwright.units import (
    ImplausibleError,
    NoUnitError,
    SpreadsheetDateError,
    UnknownUnitError,
    UnreadableError,
    parse_stature,
    parse_weight,
)


@pytest.mark.parametrize(
    "text",
    ["5'11\"", "5'11", "5-11", "5 - 11", "5 ft 11 in", "5ft11", "5’11”", "5' 11''", "71 in", '71"'],
)
def test_one_stature_is_the_same_however_it_is_written(text):
    assert parse_stature(text) == pytest.approx(71 * 25.4)


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("6'", None, 1828.8),
        ("6-0", None, 1828.8),
        ("6-1 1/2", None, 1866.9),
        ("180 cm", None, 1800.0),
        ("1.80 m", None, 1800.0),
        ("1,80 m", None, 1800.0),
        ("71", "in", 1803.4),
        ("180", "cm", 1800.0),
    ],
)
def test_other_statures_are_read(text, unit, expected):
    assert parse_stature(text, unit) == pytest.approx(expected)


def test_inches_past_a_foot_are_refused():
    with pytest.raises(UnreadableError, match="a foot has 12 inches"):
        parse_stature("5-13")


def test_a_stature_with_a_point_is_asked_about():
    with pytest.raises(NoUnitError, match=r"5-11\?"):
        parse_stature("5.11")


def test_a_stature_that_became_a_date_is_refused_with_the_remedy():
    with pytest.raises(SpreadsheetDateError, match="for example 5-11"):
        parse_stature("11-May")


def test_a_stature_in_the_wrong_unit_is_asked_about():
    with pytest.raises(ImplausibleError, match=r"180 in is no stature; 180 cm\?"):
        parse_stature("180", "in")
    with pytest.raises(ImplausibleError, match="no stature"):
        parse_stature("3'2\"")
    with pytest.raises(NoUnitError):
        parse_stature("511")


@pytest.mark.parametrize("text", ["205", "205 lb", "205 lbs", "205#", "205.0 pounds"])
def test_one_weight_is_the_same_however_it_is_written(text):
    assert parse_weight(text, "lb") == pytest.approx(205 * 0.45359237)


def test_kilograms_are_read():
    assert parse_weight("93 kg", "lb") == 93.0
    assert parse_weight("92,5", "kg") == 92.5


def test_a_weight_is_never_guessed():
    with pytest.raises(NoUnitError, match="205 lb or 205 kg"):
        parse_weight("205")
    with pytest.raises(ImplausibleError, match="500 lb"):
        parse_weight("500", "kg")
    with pytest.raises(ImplausibleError, match="66 to 507 lb"):
        parse_weight("2000", "lb")
    with pytest.raises(UnknownUnitError):
        parse_weight("14 st")
    with pytest.raises(UnknownUnitError):
        parse_weight("205", "stone")
    with pytest.raises(UnreadableError):
        parse_weight("heavy", "lb")


@pytest.mark.parametrize(("text", "meant"), [("5 10", "5-10"), ("6 5", "6-5"), ("6 0", "6-0")])
def test_feet_and_inches_with_only_a_space_between_are_asked_about(text, meant):
    with pytest.raises(UnreadableError, match=f"{meant}\\?") as refused:
        parse_stature(text, "in")
    assert refused.value.suggestion == meant
