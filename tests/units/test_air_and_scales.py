"""Temperatures, elevations and kitchen weights as people write them."""

import pytest

from helmwright.units import UnitsError, parse_elevation, parse_scale, parse_temperature


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("32 F", 0.0), ("212F", None), ("70°F", 21.111), ("-4 f", -20.0), ("0 C", 0.0), ("−5 C", -5.0),
     ("50 deg F", 10.0), ("21.5 celsius", 21.5)],
)  # fmt: skip
def test_temperatures_carry_their_unit(text, celsius):
    if celsius is None:
        with pytest.raises(UnitsError, match=r"212 F is no air for a helmet"):
            parse_temperature(text)
    else:
        assert parse_temperature(text) == pytest.approx(celsius, abs=1e-3)


def test_a_temperature_without_a_unit_is_asked_about():
    with pytest.raises(UnitsError, match=r"^32 has no unit; 32 F or 32 C\?$"):
        parse_temperature("32")
    with pytest.raises(UnitsError, match=r"70 C is no air for a helmet.*; 70 F\?$"):
        parse_temperature("70 C")
    with pytest.raises(UnitsError, match="'warm' is no temperature; write it like 32 F or 0 C"):
        parse_temperature("warm")


@pytest.mark.parametrize(
    ("text", "meters"),
    [("5280 ft", 1609.344), ("1600 m", 1600.0), ("-200 feet", -60.96), ("0 m", 0)],
)
def test_elevations_carry_their_unit(text, meters):
    assert parse_elevation(text) == pytest.approx(meters)


def test_an_elevation_without_a_unit_or_sense_is_refused():
    with pytest.raises(UnitsError, match=r"^5280 has no unit; 5280 ft or 5280 m\?$"):
        parse_elevation("5280")
    with pytest.raises(
        UnitsError, match="no elevation of a field, which runs from -1476 to 16404 ft"
    ):
        parse_elevation("52800 ft")
    with pytest.raises(UnitsError, match="the comma may mean thousands"):
        parse_elevation("5,280 ft")
    with pytest.raises(UnitsError, match="'a mile' is no elevation"):
        parse_elevation("a mile")


@pytest.mark.parametrize(
    ("text", "kg"),
    [("2 lb", 0.90718), ("2 lb 3 oz", 0.99223), ("2lbs 3oz", 0.99223), ("12.5 oz", 0.35437),
     ("500 g", 0.5), ("1.2 kg", 1.2), ("0 lb", 0.0), ("2 1/2 lb", 1.13398), ("500g", 0.5),
     ("1,5 kg", 1.5)],
)  # fmt: skip
def test_kitchen_weights_are_read_in_the_scales_own_units(text, kg):
    assert parse_scale(text) == pytest.approx(kg, abs=1e-4)


@pytest.mark.parametrize(
    ("text", "told"),
    [("5", "5 has no unit; write lb, oz, g or kg behind it"),
     ("5 stone", "'stone' is no weight of a kitchen scale"),
     ("3 oz 2 lb", "only pounds and ounces go together"),
     ("500 lb", "more than a kitchen scale reads, 55 lb"),
     ("heavy", "'heavy' is no number")],
)  # fmt: skip
def test_a_weight_that_is_none_says_what_would_be_right(text, told):
    with pytest.raises(UnitsError, match=told):
        parse_scale(text)
