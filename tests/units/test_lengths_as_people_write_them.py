"""Lengths as people write them."""

import pytest

from helmwright.units import (
    DecimalCommaError,
    HatSizeError,
    ImplausibleError,
    MissingSpaceError,
    NoUnitError,
    SpreadsheetDateError,
    UnitsError,
    UnknownUnitError,
    UnreadableError,
    parse_length,
)

HEAD = (440.0, 700.0)


@pytest.mark.parametrize(
    "text",
    [
        "22 5/8",
        "22-5/8 in",
        "22 - 5/8 in.",
        "22–5/8 inches",
        '22.625"',
        "22⅝",
        "22 ⅝ in",
        "22⅝”",
        "22 5⁄8",
        "22 5 / 8",
        "22\N{NO-BREAK SPACE}5/8''",
        "22 10/16 IN",
    ],
)
def test_one_length_in_inches_is_the_same_however_it_is_written(text):
    assert parse_length(text, "in", HEAD) == pytest.approx(22.625 * 25.4, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("57.5 cm", None, 575.0),
        ("57.5", "cm", 575.0),
        ("57,5 cm", None, 575.0),
        ("575 mm", "in", 575.0),
        ("575", "mm", 575.0),
        ("0.575 m", None, 575.0),
        ("7/8 in", None, 22.225),
        ("7/8", "in", 22.225),
        ("½ in", None, 12.7),
        ("57 1/2 cm", None, 575.0),
        (".5 in", None, 12.7),
        ("22.", "in", 558.8),
    ],
)
def test_metric_lengths_and_bare_fractions_are_read(text, unit, expected):
    assert parse_length(text, unit) == pytest.approx(expected)


def test_a_unit_in_the_text_goes_before_the_unit_of_the_column():
    assert parse_length("57.5 cm", "in", HEAD) == 575.0


@pytest.mark.parametrize("text", ["7 1/4 US hat", "US hat 7 1/4", "7¼ us hat size", "7.25 US hat"])
def test_a_hat_size_is_taken_only_when_named_as_one_of_the_united_states(text):
    assert parse_length(text, "in", HEAD) == pytest.approx(578.5, abs=0.05)


@pytest.mark.parametrize("text", ["7 1/4 hat", "7 1/4 UK hat", "hat 58"])
def test_a_hat_size_of_no_named_country_is_refused(text):
    with pytest.raises(HatSizeError, match="US hat"):
        parse_length(text, "in", HEAD)


def test_a_bare_hat_size_in_a_column_of_inches_is_asked_about():
    with pytest.raises(ImplausibleError, match=r"7 1/4 in is no head; 7 1/4 US hat\?") as caught:
        parse_length("7 1/4", "in", HEAD, what="head")
    assert caught.value.suggestion == "7 1/4 US hat"


@pytest.mark.parametrize(
    ("text", "unit", "question"),
    [
        ("57.5", "in", "57.5 in is no head; 57.5 cm?"),
        ("57.5 in", "cm", "57.5 in is no head; 57.5 cm?"),
        ("22 5/8", "cm", "22 5/8 cm is no head; 22 5/8 in?"),
        ("575", "in", "575 in is no head; 575 mm?"),
        ("575", "cm", "575 cm is no head; 575 mm?"),
        ("22.5 mm", None, "22.5 mm is no head; 22.5 in?"),
    ],
)
def test_a_number_that_is_no_head_in_its_unit_is_asked_about(text, unit, question):
    with pytest.raises(ImplausibleError) as caught:
        parse_length(text, unit, HEAD, what="head")
    assert str(caught.value) == question


def test_a_number_that_is_no_head_in_any_unit_says_what_heads_are():
    with pytest.raises(ImplausibleError, match=r"17\.3 to 27\.6 in \(44 to 70 cm\)") as caught:
        parse_length("9", "in", HEAD, what="head")
    assert caught.value.suggestion is None


def test_a_bare_number_without_any_unit_is_asked_about_and_not_guessed():
    with pytest.raises(NoUnitError, match=r"57\.5 has no unit; 57\.5 cm\?"):
        parse_length("57.5", None, HEAD)
    with pytest.raises(NoUnitError, match="12 in or 12 cm"):
        parse_length("12")


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ('221/8"', "22 1/8"),
        ("221/8", "22 1/8"),
        ("2215/16 in", "22 15/16"),
        ("224/8", "22 4/8"),
        ("75/8", "7 5/8"),
    ],
)
def test_a_fraction_run_together_with_its_inches_is_refused_with_a_question(text, meant):
    with pytest.raises(MissingSpaceError, match="misses the space") as caught:
        parse_length(text, "in")
    assert caught.value.suggestion == meant


@pytest.mark.parametrize(
    "text",
    [
        "5-Aug",
        "22-May",
        "Aug-22",
        "5 August",
        "8-May-2026",
        "2026-08-05",
        "2026-08-05 00:00:00",
        "2026-05-08T00:00:00",
        "8/5/2026",
        "5.8.2026",
    ],
)
def test_a_fraction_that_a_spreadsheet_made_a_date_is_refused_with_the_remedy(text):
    with pytest.raises(SpreadsheetDateError, match="Format the column as text"):
        parse_length(text, "in", HEAD)


@pytest.mark.parametrize("text", ["22,625", "1,755", "22,625 in"])
def test_a_comma_that_may_mean_thousands_is_refused(text):
    with pytest.raises(DecimalCommaError, match="thousands"):
        parse_length(text, "in")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "   ",
        "abc",
        "-22",
        "22 5/9",
        "22 9/8",
        "22 8/8",
        "22 0/8",
        "22 5/0",
        "22 1/2 1/4",
        "22.5.6",
        "22.5 5/8",
        "1e3",
        "nan",
        "inf",
        "0",
        "٢٢",
        "22/",
        "/8",
        "22 5/",
        "N/A",
        "?",
    ],
)
def test_nonsense_is_refused(text):
    with pytest.raises(UnreadableError):
        parse_length(text, "in", HEAD)


def test_units_of_something_else_are_refused():
    with pytest.raises(UnknownUnitError, match="no unit of length"):
        parse_length("22 5/8 lb")
    with pytest.raises(UnknownUnitError, match="no unit here"):
        parse_length("22", "furlong")


def test_every_refusal_is_one_kind_of_error_that_a_caller_can_catch():
    kinds = (
        UnreadableError,
        MissingSpaceError,
        SpreadsheetDateError,
        DecimalCommaError,
        NoUnitError,
        UnknownUnitError,
        HatSizeError,
        ImplausibleError,
    )
    assert all(issubclass(kind, UnitsError) for kind in kinds)


def test_a_fraction_without_a_unit_is_asked_about_in_inches_alone():
    with pytest.raises(NoUnitError, match=r"7 1/2 has no unit; 7 1/2 in\?") as refused:
        parse_length("7 1/2")
    assert refused.value.suggestion == "7 1/2 in"
