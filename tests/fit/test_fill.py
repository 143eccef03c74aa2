"""Cells filled by feel: their law, what they do on a head, what is said of them."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import CUSHION, VINYL_NITRILE, ZONES, ModelSheet, Zone, load_packaged
from helmwright.catalogue.cell import FILL_SPREAD, AirCell
from helmwright.fit.account import account
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.fill import air_height_mm, bladders, cell_of, fill_outlooks, zone_heights_mm
from helmwright.fit.law import fit_law, series_stroke
from helmwright.fit.rater import Rater
from helmwright.fit.seating import pad_laws, pad_layers
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.ordinary import OUZEL, delivered, men, nothing_unknown, trial_of

REDSTART = load_packaged("redstart")
RING = (Zone.REAR, Zone.LEFT, Zone.RIGHT)
HEADS = men(60)
REACHES = st.floats(4.0, 30.0)
SKINS = st.floats(0.25, 0.7)
FEELS = st.floats(1.2, 5.0)


def with_reach(reach_mm: float, full_mm: float) -> ModelSheet:
    """The model with cells of another reach and thickness."""
    pads = tuple(
        replace(pad, cell=replace(pad.cell, reach_mm=reach_mm), thicknesses_mm=(full_mm,))
        if pad.cell
        else pad
        for pad in REDSTART.pads
    )
    return replace(REDSTART, pads=pads)


@cache
def trial() -> Trial:
    return trial_of(HEADS, sheet=REDSTART)


@cache
def rest() -> Rest:
    return trial().rest(delivered(sheet=REDSTART))


def heights(zone: Zone, at: Trial | None = None, found: Rest | None = None) -> np.ndarray:
    here = at or trial()
    stroke = (found or rest()).stroke_mm
    return zone_heights_mm(here, delivered(sheet=here.sheet), stroke, here.sheet.pad(zone))


@given(REACHES, SKINS, FEELS)
def test_a_cell_gives_all_its_reach_between_its_two_pressures(reach, skin, feel):
    cell = AirCell(reach, "x", skin, feel)
    layers = ((CUSHION, 6.0), (cell.kept_at_its_pressure(), reach), (VINYL_NITRILE, 8.0))
    law = fit_law(layers, bends_kpa=cell.bends_kpa())
    full, flat = cell.bends_kpa()
    foams = series_stroke((layers[0], layers[2]), np.array([full, flat]))
    given = law.stroke(flat) - law.stroke(full)
    assert given == pytest.approx(reach + foams[1] - foams[0], abs=0.4 + 0.07 * reach)
    strokes = np.linspace(-1.0, reach + 14.0, 3000)
    assert np.diff(law.pressure(strokes)).min() >= -1e-9


@given(REACHES, SKINS)
def test_a_flat_cell_is_the_foam_around_it(reach, skin):
    cell = AirCell(reach, "x", skin)
    foams = ((CUSHION, 6.0), (VINYL_NITRILE, 8.0))
    layers = (foams[0], (cell.kept_at_its_pressure(), reach), foams[1])
    law = fit_law(layers, bends_kpa=cell.bends_kpa())
    kpa = np.linspace(1.15 * cell.gauge_kpa, 12.0, 40)
    pressed = law.pressure(series_stroke(foams, kpa) + reach)
    assert np.all(np.abs(pressed / kpa - 1.0) < 0.13)


def test_the_invented_models_cells_follow_their_layers():
    laws = pad_laws(REDSTART)
    kpa = np.geomspace(0.5, 12.0, 200)
    for zone in RING:
        pad = REDSTART.pad(zone)
        followed = laws.law(zone, 0).pressure(
            series_stroke(pad_layers(pad, pad.thicknesses_mm[0]), kpa)
        )
        assert np.all(np.abs(followed / kpa - 1.0) < 0.04)


def test_the_layers_of_a_cells_pad_add_up_to_the_full_pad():
    pad = REDSTART.pad(Zone.REAR)
    layers = pad_layers(pad, pad.thicknesses_mm[0])
    assert [round(height, 3) for _, height in layers] == [6.0, 15.875, 9.875]


def test_filled_by_feel_every_cell_presses_alike_within_what_its_skin_takes():
    low, high = cell_of(REDSTART.pad(Zone.LEFT)).bends_kpa()
    for zone in RING:
        place = ZONES.index(zone)
        strokes = rest().stroke_mm[:, trial().seating.zones == place]
        law = trial().laws.law(zone, 0)
        height = air_height_mm(cell_of(REDSTART.pad(zone)), law, strokes)
        inside = (height > 0.3) & (height < 15.5)
        assert inside.mean() > 0.9
        pressed = law.pressure(strokes)[inside]
        assert pressed.min() > 0.95 * low
        assert pressed.max() < 1.05 * high


def test_a_cell_fills_the_gap_that_a_smaller_head_leaves():
    """Two millimeters more gap on each side are two millimeters more air, at the same pressure."""
    less = nothing_unknown(len(HEADS))
    for zone in (Zone.LEFT, Zone.RIGHT):
        less.zone_mm[:, ZONES.index(zone)] = -2.0
    small = trial_of(HEADS, sheet=REDSTART, unknowns=less)
    found = small.rest(delivered(sheet=REDSTART))
    grown = heights(Zone.LEFT, small, found) + heights(Zone.RIGHT, small, found)
    grown = grown - heights(Zone.LEFT) - heights(Zone.RIGHT)
    # The skin carries more of a fuller cell, so the foam over it gives back a little.
    assert 3.4 < np.median(grown) < 4.05
    for zone in (Zone.LEFT, Zone.RIGHT):
        place = ZONES.index(zone)
        ratio = found.zone_pressure_kpa[:, place] / rest().zone_pressure_kpa[:, place]
        assert np.median(np.abs(ratio - 1.0)) < 0.06


def test_a_foam_pad_takes_the_same_gap_as_a_loss_of_pressure():
    """So the test above is not one that any pad would pass."""
    less = nothing_unknown(len(HEADS))
    for zone in (Zone.LEFT, Zone.RIGHT):
        less.zone_mm[:, ZONES.index(zone)] = -2.0
    before = trial_of(HEADS).rest(delivered())
    after = trial_of(HEADS, unknowns=less).rest(delivered())
    place = ZONES.index(Zone.LEFT)
    means = [found.zone_pressure_kpa[:, place].mean() for found in (before, after)]
    assert means[1] < 0.8 * means[0]


def test_a_cell_that_cannot_reach_is_loose_and_said_to_be_full():
    short = with_reach(3.0, 18.9)
    at = trial_of(HEADS, sheet=short, shell=5)
    found = at.rest(delivered(5, short))
    (fill,) = fill_outlooks(at, delivered(5, short), found)
    assert fill.full > 0.9
    loose = found.zone_pressure_kpa[:, ZONES.index(Zone.LEFT)] < 0.7
    assert loose.mean() > 0.5


def test_what_is_said_of_the_fill_is_what_the_rests_hold():
    (fill,) = fill_outlooks(trial(), delivered(sheet=REDSTART), rest())
    assert fill.zones == RING
    assert fill.gauge_kpa.mean == pytest.approx(2.5 / 0.85)
    for zone, pad in zip(fill.zones, fill.pad_mm, strict=True):
        assert pad.mean == pytest.approx(15.875 + heights(zone).mean())
    # 30 cm2 and 1 mm hold 3 mL; let in at 101.325 kPa, kept at the gauge above it.
    volume = 3.0 * np.sum([heights(zone) for zone in RING], axis=0)
    air = volume * (101.325 + 2.5 / 0.85) / 101.325
    assert fill.air_ml.mean == pytest.approx(air.mean())
    assert fill.strokes is not None
    assert fill.strokes.mean == pytest.approx(air.mean() / 12.0)


def test_cells_by_themselves_are_bladders_by_themselves():
    apart = tuple(
        replace(pad, cell=replace(pad.cell, bladder=str(pad.zone))) if pad.cell else pad
        for pad in REDSTART.pads
    )
    assert [each.zones for each in bladders(replace(REDSTART, pads=apart))] == [
        (zone,) for zone in RING
    ]
    assert [each.zones for each in bladders(REDSTART)] == [RING]
    assert bladders(OUZEL) == ()


def test_connected_cells_share_one_error_of_fill_and_others_keep_their_own():
    drawn = draw_unknowns(REDSTART, 20_000, np.random.default_rng(3))
    felt = drawn.foam[:, [ZONES.index(zone) for zone in RING]]
    assert np.all(felt == felt[:, :1])
    assert np.log(felt[:, 0]).std() == pytest.approx(FILL_SPREAD.value, rel=0.03)
    front = np.log(drawn.foam[:, ZONES.index(Zone.FRONT)])
    assert abs(np.corrcoef(front, np.log(felt[:, 0]))[0, 1]) < 0.03


def test_a_sheet_without_cells_draws_as_ever():
    """Column by column the same numbers as foams by themselves would have drawn."""
    drawn = draw_unknowns(OUZEL, 500, np.random.default_rng(5))
    again = draw_unknowns(REDSTART, 500, np.random.default_rng(5))
    place = ZONES.index(Zone.NAPE)
    np.testing.assert_array_equal(drawn.foam[:, place], again.foam[:, place])
    np.testing.assert_array_equal(drawn.friction, again.friction)


def test_a_fill_is_no_change_of_pads():
    build = delivered(sheet=REDSTART)
    outlook = account(trial(), build, build, rater=Rater(), rest=rest())
    assert outlook.changes == ()
    assert outlook.fills
    assert all(len(pad.thicknesses_mm) == 1 for pad in REDSTART.pads if pad.cell)
