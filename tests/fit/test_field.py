"""Sealed cells in the cold and at altitude: the gas law on heads, between its limits."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.catalogue import ModelSheet, Zone
from helmwright.catalogue.air import Surroundings
from helmwright.fit.contact import Trial
from helmwright.fit.field import FieldOutlook, moved
from helmwright.fit.sealed import LEVELS_KPA, AtPressure, SealedCells
from helmwright.fit.seating import pad_laws
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.ordinary import delivered, men, trial_of
from tests.fit.test_fill import REDSTART

ROOM = Surroundings(21.0)
COLD = Surroundings(-10.0)
HIGH = Surroundings(21.0, 1600.0)
COUNT = 60
BUILD = delivered(sheet=REDSTART)


def trial(sheet: ModelSheet = REDSTART, count: int = COUNT) -> Trial:
    unknown = draw_unknowns(sheet, count, np.random.default_rng(11))
    return trial_of(men(count), sheet=sheet, unknowns=unknown)


@cache
def cells() -> SealedCells:
    return SealedCells(trial(), BUILD, pad_laws)


@cache
def outlook(field: Surroundings) -> FieldOutlook:
    return moved(trial(), BUILD, room=ROOM, field=field, laws_of=pad_laws)


def air_of(of: SealedCells) -> np.ndarray:
    filled = of.filled_kpa
    space = of.volumes_ml(of.rest(filled))
    return (ROOM.pressure_kpa + filled) * space / ROOM.temperature_k


def left_over(of: SealedCells, gauge: np.ndarray, field: Surroundings) -> np.ndarray:
    """By what share the gas law is missed."""
    space = of.volumes_ml(of.rest(gauge))
    held = (field.pressure_kpa + gauge) * space / field.temperature_k
    return (held - air_of(of)) / np.maximum(air_of(of), 1e-9)


def test_where_nothing_changes_everything_stays():
    same = outlook(ROOM)
    (bladder,) = same.bladders
    assert bladder.gauge_kpa[1].mean == pytest.approx(bladder.gauge_kpa[0].mean, rel=0.005)
    assert bladder.volume.mean == pytest.approx(1.0, abs=0.005)
    assert same.fits[1].value == pytest.approx(same.fits[0].value, abs=0.02)


@pytest.mark.parametrize("field", [COLD, HIGH])
def test_the_air_that_is_found_is_the_air_that_was_let_in(field):
    """To 1 percent for half of the heads, 5 for 19 of 20; slack cells have no such pressure."""
    gauge = cells().balanced_kpa(air_of(cells()), field)
    missed = np.abs(left_over(cells(), gauge, field))[gauge > 1.05 * LEVELS_KPA[0]]
    assert missed.size > 0.7 * COUNT
    assert np.quantile(missed, 0.5) < 0.01
    assert np.quantile(missed, 0.95) < 0.05


def test_cells_by_themselves_keep_their_own_air():
    apart = tuple(
        replace(pad, cell=replace(pad.cell, bladder=str(pad.zone))) if pad.cell else pad
        for pad in REDSTART.pads
    )
    own = SealedCells(trial(replace(REDSTART, pads=apart), 16), BUILD, pad_laws)
    gauge = own.balanced_kpa(air_of(own), HIGH)
    assert gauge.shape == (16, 3)
    missed = np.abs(left_over(own, gauge, HIGH))[air_of(own) > 0.5]
    assert np.quantile(missed, 0.5) < 0.02
    assert np.median(gauge / own.filled_kpa) > 1.1


def test_cold_softens_and_altitude_firms_within_the_limits_of_the_gas_law():
    for field, sign in ((COLD, -1.0), (HIGH, 1.0)):
        (bladder,) = outlook(field).bladders
        before, after = (each.mean for each in bladder.gauge_kpa)
        assert 0.0 < sign * (after - before) < sign * (bladder.rigid_kpa.mean - before)
    assert outlook(COLD).bladders[0].volume.mean < 1.0 < outlook(HIGH).bladders[0].volume.mean


def fixed_gap_kpa(field: Surroundings) -> np.ndarray:
    """Gauge pressures if the helmet could not move on the head: only the foam gives."""
    of, found = cells(), cells().rest(cells().filled_kpa)
    held = []
    for place, kpa in enumerate(LEVELS_KPA):
        level = np.full((COUNT, 1), place)
        space = of.volumes_ml(AtPressure(found.rest, level))[:, 0]
        held.append((field.pressure_kpa + kpa) * space / field.temperature_k)
    wanted = air_of(of)[:, 0]
    rising = np.maximum.accumulate(np.array(held), axis=0)
    pairs = zip(wanted, rising.T, strict=True)
    return np.array([np.interp(air, row, LEVELS_KPA) for air, row in pairs])


def test_a_helmet_that_can_move_changes_less_than_one_that_cannot():
    """A stand-still head is the outer limit here; the rigid cell would be far outside."""
    before = cells().filled_kpa[:, 0]
    there = cells().balanced_kpa(air_of(cells()), HIGH)[:, 0]
    fixed = fixed_gap_kpa(HIGH)
    assert np.mean(there <= 1.05 * fixed) > 0.9
    assert np.median(fixed / before) > np.median(there / before) > 1.1


def test_zones_turn_loose_in_the_cold_and_tight_on_high():
    for zone in outlook(COLD).zones:
        assert zone.loose[1] >= zone.loose[0]
        assert zone.pressure_kpa[1].mean < zone.pressure_kpa[0].mean
    for zone in outlook(HIGH).zones:
        assert zone.tight[1] >= zone.tight[0]
        assert zone.pressure_kpa[1].mean > zone.pressure_kpa[0].mean
    assert [zone.zone for zone in outlook(COLD).zones] == [Zone.REAR, Zone.LEFT, Zone.RIGHT]


def test_the_room_is_the_fill_by_feel_that_a_proposal_counts():
    """Foam over a cell goes with the fill in a proposal, and keeps its own stiffness here."""
    proposed = trial().rest(BUILD)
    here = cells().rest(cells().filled_kpa).rest
    assert np.median(np.abs(proposed.zone_pressure_kpa - here.zone_pressure_kpa)) < 0.15
    assert (proposed.right == here.right).mean() > 0.85


def test_a_sheet_without_cells_has_nothing_to_tell():
    with pytest.raises(ValueError, match=r"Ouzel \(invented\) has no air cells"):
        moved(trial_of(men(20)), delivered(), room=ROOM, field=COLD, laws_of=pad_laws)
