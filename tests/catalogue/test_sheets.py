"""What a good sheet is read as."""

import re

import numpy as np
import pytest

from helmwright.catalogue import (
    ZONES,
    FitTopic,
    Zone,
    load_packaged,
    packaged_models,
    packaged_text,
    parse_sheet,
)
from helmwright.catalogue.advice import advise
from helmwright.sources import Standing
from tests.catalogue.plain_sheet import PLAIN, edited


@pytest.fixture
def plain():
    return parse_sheet(PLAIN, name="plain.toml")


@pytest.mark.parametrize("name", packaged_models())
def test_every_packaged_sheet_passes_its_own_checks_and_is_marked_invented(name):
    sheet = load_packaged(name)
    assert sheet.invented
    assert "invented" in sheet.model.lower()
    assert "does not exist" in packaged_text(name).lower()


def test_a_sheet_that_the_package_lacks_is_refused_by_name():
    with pytest.raises(KeyError, match="no model sheet 'plover' in the package; there is: "):
        load_packaged("plover")


def test_lengths_are_kept_in_millimeters_and_labels_as_written(plain):
    crown = plain.pad(Zone.CROWN)
    assert crown.labels == ("5/8 in", "3/4 in", "7/8 in")
    np.testing.assert_allclose(crown.thicknesses_mm, [15.875, 19.05, 22.225])
    assert plain.shell(1).chart_low_mm == pytest.approx(533.4)


def test_the_delivered_thickness_is_found_however_it_is_written():
    for word in ("3/4 in", "0.75 in", "19.05 mm", "1.905 cm"):
        sheet = parse_sheet(edited({55: f'delivered = "{word}"'}), name="plain.toml")
        assert sheet.delivered == (1,) * 8


def test_pads_follow_the_order_of_the_zones_whatever_the_order_of_the_sheet():
    head, *pads = re.split(r"(?=\[\[pad\]\])", PLAIN[: PLAIN.index("[[face_guard]]")])
    shuffled = parse_sheet(head + "\n".join(reversed(pads)), name="plain.toml")
    assert tuple(pad.zone for pad in shuffled.pads) == ZONES


def test_a_part_that_names_no_shells_goes_on_all(plain):
    (strap,) = plain.chin_straps
    assert strap.shells == (1, 2)


def test_a_foam_of_the_sheet_keeps_who_measured_it(plain):
    foam = plain.pad(Zone.CROWN).fit_foam
    assert foam.source.citation == "pressed on a kitchen scale"
    assert foam.source.standing is Standing.ASSUMED


def test_the_makers_instruction_is_found_by_its_topic(plain):
    instruction = plain.instruction(FitTopic.BROW_HEIGHT)
    assert instruction.accept_mm == pytest.approx((19.05, 25.4))
    assert plain.instruction(FitTopic.NAPE) is None


def test_a_reading_between_two_bands_takes_the_larger_unless_the_sheet_says_otherwise(plain):
    assert plain.between_bands == "smaller"
    silent = parse_sheet(edited({4: ""}), name="plain.toml")
    assert silent.between_bands == "larger"


def test_a_sheet_with_a_byte_order_mark_or_windows_line_ends_reads_the_same(plain):
    assert parse_sheet("\ufeff" + PLAIN.replace("\n", "\r\n"), name="plain.toml") == plain


def test_the_invented_adult_model_has_six_growing_shells_and_eight_zones():
    sheet = load_packaged("ouzel")
    assert [shell.number for shell in sheet.shells] == [1, 2, 3, 4, 5, 6]
    depths = [shell.crown_mm for shell in sheet.shells]
    assert depths == sorted(depths)
    assert sheet.matched == ()
    assert [len(pad.seats) for pad in sheet.pads] == [5, 3, 3, 3, 3, 3, 2, 2]


def test_the_invented_adult_model_is_its_own_mirror_image():
    sheet = load_packaged("ouzel")
    for zone in (Zone.LEFT, Zone.JAW_LEFT):
        here, there = sheet.pad(zone), sheet.pad(zone.mirrored)
        assert here.thicknesses_mm == there.thicknesses_mm
        assert [(-s.azimuth_deg, s.elevation_deg) for s in here.seats] == [
            (s.azimuth_deg, s.elevation_deg) for s in there.seats
        ]


def test_the_invented_youth_model_is_light_and_made_for_eight_to_fourteen():
    wren, ouzel = load_packaged("wren"), load_packaged("ouzel")
    assert wren.ages == (8.0, 14.0)
    assert [shell.chart_low_mm for shell in wren.shells] == [500.0, 520.0, 540.0, 560.0]
    assert wren.shell(1).mass_kg < ouzel.shell(1).mass_kg
    thin = [pad.thicknesses_mm[pad.delivered] for pad in wren.pads]
    usual = [pad.thicknesses_mm[pad.delivered] for pad in ouzel.pads]
    assert all(one < other for one, other in zip(thin, usual, strict=True))


def test_advice_tells_the_snug_window_in_thickness_steps():
    told = advise(load_packaged("ouzel"))
    assert told[2] == (
        "rear, left and right pads: snug over 1/4 in (6.2 mm) of squeeze, about 1.9 thickness steps"
        " of 1/8 in (3.2 mm)"
    )
    assert len(told) == 4
    assert told[0].startswith("crown pad: it sets the brow height")


def test_windows_of_layers_that_nobody_named_may_be_left_out():
    siskin = load_packaged("siskin")
    told = advise(siskin, on_assumed_layers=False)
    assert not any("snug over" in each for each in told)
    assert told[0].startswith("crown pad: it sets the brow height")
    assert any("snug over" in each for each in advise(siskin))
    ouzel = load_packaged("ouzel")
    assert advise(ouzel, on_assumed_layers=False) == advise(ouzel)


def test_advice_warns_where_no_thickness_may_be_right():
    told = advise(parse_sheet(edited({67: 'fit_foam = "vinyl_nitrile"'}), name="plain.toml"))
    assert "Some heads will find no thickness right" in told[1]


def test_bands_may_overlap_and_the_advice_says_who_takes_what():
    sheet = parse_sheet(edited({42: 'chart = ["21 3/4 in", "23 1/8 in"]'}), name="plain.toml")
    assert sheet.shell(2).chart_low_mm < sheet.shell(1).chart_high_mm
    assert advise(sheet)[-1] == (
        "chart: 21 3/4 to 22 in (552.45 to 558.8 mm) is in the bands of shells 1 and 2; such a "
        "head takes the smaller one"
    )


def test_advice_names_a_gap_in_the_chart_and_pads_that_are_no_mirror_images():
    text = edited({42: 'chart = ["22 1/2 in", "23 1/8 in"]', 90: "seats = [[70, 18], [105, 18]]"})
    told = advise(parse_sheet(text, name="plain.toml"))
    assert "left and right pads do not sit as in a mirror: meant so?" in told
    assert told[-1] == (
        "chart: 22 to 22 1/2 in (558.8 to 571.5 mm) lies between shells 1 and 2; such a head takes "
        "the smaller one"
    )
