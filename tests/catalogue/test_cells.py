"""Air cells on a sheet: read, explained, and refused with a line and a remedy."""

from dataclasses import replace

import pytest

from helmwright.catalogue import Zone, advise, load_packaged, parse_sheet
from helmwright.catalogue.cell import AIR, AirCell
from helmwright.catalogue.window import snug_window
from tests.catalogue.plain_sheet import complaints, edited

SECTION = '[pad.cell]\nfull = "1 1/4 in"\nflat = "5/8 in"\nbladder = "ring"'
CELL = {74: "", 75: "", 81: SECTION + "\n"}
"""The plain sheet's rear pad with an air cell; its section opens on line 81."""


def celled(old: str = "", new: str = "", **lines: str) -> str:
    """The plain sheet with a cell at the rear, one piece of its section replaced."""
    assert old in SECTION
    more = {int(place.removeprefix("line_")): line for place, line in lines.items()}
    section = SECTION.replace(old, new) if old else SECTION + new
    return edited(CELL | {81: section + "\n"} | more)


def test_a_cell_is_read_with_what_its_sheet_says_and_the_assumed_rest():
    pad = parse_sheet(celled(), name="plain.toml").pad(Zone.REAR)
    assert pad.cell is not None
    assert pad.thicknesses_mm == (31.75,)
    assert pad.labels == (AIR,)
    assert pad.cell == AirCell(15.875, "ring", 0.3, 2.5, None)


def test_a_cell_may_go_without_a_foam_over_it():
    pad = parse_sheet(celled(line_77="", line_78=""), name="plain.toml").pad(Zone.REAR)
    assert (pad.fit_layer_mm, pad.fit_foam) == (0.0, pad.energy_foam)


def test_its_pressures_follow_from_feel_and_skin():
    cell = AirCell(10.0, "x", skin_share=0.4, snug_kpa=2.0)
    assert cell.gauge_kpa == pytest.approx(2.5)
    assert cell.bends_kpa() == pytest.approx((1.5, 2.5))
    assert cell.at_gauge(5.0).gauge_kpa == pytest.approx(5.0)
    with pytest.raises(ValueError, match=r"from 0\.1 to 0\.9"):
        AirCell(10.0, "x", skin_share=0.0)
    with pytest.raises(ValueError, match="greater than 0"):
        AirCell(0.0, "x")


FAULTS = {
    "a thickness besides": (
        celled(line_75='thicknesses = ["3/4 in"]'),
        (
            "line 75: rear pad, thicknesses: a pad with an air cell is filled, not swapped. Leave "
            "this out; full and flat under [pad.cell] say its reach."
        ),
    ),
    "flat over full": (
        celled('flat = "5/8 in"', 'flat = "1 1/2 in"'),
        (
            "line 82: rear pad, cell, full: the full cell's 31.75 mm is not 2 mm above the flat "
            "one's 38.1 mm. Write the whole pad's thickness with the cell full, and with all air "
            "let out."
        ),
    ),
    "a fit layer that the flat pad has no room for": (
        celled('flat = "5/8 in"', 'flat = "1/4 in"'),
        (
            "line 78: rear pad, fit_layer: a fit layer of 8 mm is more than the flat pad's 6.35 "
            "mm. The flat pad holds the fit layer, the skins and the rest."
        ),
    ),
    "two part numbers": (
        celled(line_74='part_numbers = ["A", "B"]'),
        (
            "line 74: rear pad, part_numbers: part numbers: 2; there is one cell. Write the one "
            "part number of this zone's cell."
        ),
    ),
    "a gauge instead of a feel": (
        celled(new="\nsnug_kpa = 14"),
        "line 85: rear pad, cell, snug_kpa: 14 is out of range. Write a number from 1 to 5.5 kPa.",
    ),
    "a skin that carries all": (
        celled(new="\nskin_share = 1"),
        "line 85: rear pad, cell, skin_share: 1 is out of range. Write a number from 0.1 to 0.9.",
    ),
    "a key that is none": (
        celled(new="\nfill = 3"),
        (
            'line 85: rear pad, cell, fill: there is no such key here (did you mean "full"?). The '
            "keys here are: bladder, flat, full, pump_ml, skin_share, snug_kpa."
        ),
    ),
    "a height without a unit": (
        celled('full = "1 1/4 in"', "full = 32"),
        (
            "line 82: rear pad, cell, full: 32 has no unit; 32 mm? Write a length with its unit in "
            'quotation marks, such as "7/8 in" or "22 mm".'
        ),
    ),
    "no section": (
        edited({74: "cell = true", 75: ""}),
        "line 74: rear pad, cell: cell is no section. Write [cell] on a line of its own.",
    ),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_faulty_cell_is_named_with_its_line_and_remedy(name):
    text, complaint = FAULTS[name]
    assert complaints(text) == [complaint]


def test_a_cell_at_the_crown_is_refused_with_the_reason():
    (told,) = complaints(edited({54: "", 55: "", 61: SECTION + "\n"}))
    assert told == (
        "line 61: crown pad, cell: an air cell at the crown is not modeled: it carries the weight "
        "whatever its fill. Describe the crown's foam, in thicknesses that set the height."
    )


def test_connected_cells_need_one_pressure():
    nape = {104: "", 105: "", 111: SECTION + "\nsnug_kpa = 2\n"}
    (told,) = complaints(edited(CELL | nape))
    assert told == (
        'line 115: nape pad, cell: it shares the air of "ring" with the rear pad, but not its '
        "pressure. Give both the same snug_kpa and skin_share, as on the rear pad."
    )
    apart = nape[111].replace('bladder = "ring"', "")
    sheet = parse_sheet(edited(CELL | nape | {111: apart}), name="plain.toml")
    assert [pad.cell.bladder for pad in sheet.pads if pad.cell] == ["ring", "nape"]


def test_advice_tells_how_far_a_cell_reaches_and_to_check_it():
    told = advise(load_packaged("redstart"))
    assert told[2] == (
        "rear, left and right pads: air cell, filled by feel to about 2.5 kPa on the head"
        " (assumed), reaching from 5/8 in (15.9 mm) flat to 1 1/4 in (31.8 mm) full. Leak is not"
        " modeled: check it weekly"
    )
    assert sum("Leak" in each for each in told) == 1


def test_the_model_with_air_cells_is_invented_and_its_cells_share_their_air():
    sheet = load_packaged("redstart")
    assert sheet.invented
    celled_zones = {pad.zone: pad.cell.bladder for pad in sheet.pads if pad.cell}
    assert celled_zones == dict.fromkeys((Zone.REAR, Zone.LEFT, Zone.RIGHT), "ring")


def test_a_cells_window_is_its_reach_and_what_the_foams_give():
    pad = load_packaged("redstart").pad(Zone.LEFT)
    foams = replace(pad, cell=None, thicknesses_mm=(15.875,))
    assert pad.cell is not None
    assert snug_window(pad).window_mm == pytest.approx(
        snug_window(foams).window_mm + pad.cell.reach_mm, rel=0.01
    )
