"""Bands that nothing can meet are refused, and every limit counts."""

from dataclasses import replace

import numpy as np
import pytest

from helmwright.catalogue import ZONES, Zone
from helmwright.fit import Bands, FaultKind, Rater
from helmwright.fit.account import account
from helmwright.fit.contact import Rest, Trial
from tests.fit.ordinary import delivered, men, trial_of


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"loose_kpa": 0.0}, "loose < tight <= hot spot"),
        ({"loose_kpa": 7.0}, "loose < tight <= hot spot"),
        ({"hot_spot_kpa": 5.0}, "loose < tight <= hot spot"),
        ({"brow_low_mm": 40.0}, "brow low < brow high"),
    ],
)
def test_bands_that_nothing_can_meet_are_refused(wrong, words):
    with pytest.raises(ValueError, match=words):
        Bands(**wrong)


def judged(**changes: float) -> tuple[Trial, Rest]:
    """One head with every contact at 3 mm of stroke and the brow at an inch, then changed."""
    trial = trial_of(men(1))
    seat, build = trial.seating, delivered()
    stroke = np.full((1, seat.zones.size), 3.0)
    for name, value in changes.items():
        if name != "brow":
            stroke[0, seat.zones == ZONES.index(Zone(name))] = value
    brow = np.array([changes.get("brow", 25.4)])
    return trial, trial.judge(
        build, stroke, np.ones_like(stroke), np.zeros((1, 6)), brow, slice(0, 1)
    )


def kinds(trial: Trial, rest: Rest) -> set[tuple[FaultKind, Zone | None]]:
    told = account(trial, delivered(), delivered(), rater=Rater(), rest=rest)
    return {(fault.kind, fault.zone) for fault in told.faults}


def test_all_in_their_bands_is_right():
    trial, rest = judged()
    assert rest.right.all()
    assert kinds(trial, rest) == set()


@pytest.mark.parametrize(
    ("changes", "fault"),
    [
        ({"brow": 18.9}, (FaultKind.BROW_LOW, None)),
        ({"brow": 31.9}, (FaultKind.BROW_HIGH, None)),
        ({"front": 0.01}, (FaultKind.LOOSE, Zone.FRONT)),
        ({"nape": -1.0}, (FaultKind.LOOSE, Zone.NAPE)),
        ({"rear": 7.5}, (FaultKind.TIGHT, Zone.REAR)),
    ],
)
def test_one_thing_out_of_its_band_is_one_fault(changes, fault):
    trial, rest = judged(**changes)
    assert not rest.right.any()
    assert kinds(trial, rest) == {fault}


def test_one_contact_too_hard_is_a_hot_spot_though_the_zone_is_snug():
    trial, rest = judged()
    hot = np.where(np.arange(8) == ZONES.index(Zone.LEFT), 14.1, rest.zone_peak_kpa)
    assert kinds(trial, replace(rest, zone_peak_kpa=hot)) == {(FaultKind.HOT_SPOT, Zone.LEFT)}


def test_one_contact_clear_of_the_head_is_a_gap_though_the_zone_is_snug():
    trial, build = trial_of(men(1)), delivered()
    crown = np.flatnonzero(trial.seating.zones == ZONES.index(Zone.CROWN))
    stroke = np.full((1, trial.seating.zones.size), 3.0)
    stroke[0, crown[0]] = -2.1
    rest = trial.judge(
        build, stroke, np.ones_like(stroke), np.zeros((1, 6)), np.array([25.4]), slice(0, 1)
    )
    assert not rest.right.any()
    assert kinds(trial, rest) == {(FaultKind.GAP, Zone.CROWN)}


def test_zone_numbers_are_means_over_the_area():
    trial, build = trial_of(men(1)), delivered()
    zones = trial.seating.zones
    stroke = np.linspace(1.0, 5.0, zones.size)[None, :]
    rest = trial.judge(
        build, stroke, np.ones_like(stroke), np.zeros((1, 6)), np.array([25.4]), slice(0, 1)
    )
    for place, zone in enumerate(ZONES):
        here = stroke[0, zones == place]
        law = trial.laws.law(zone, build.pads[place])
        assert rest.zone_stroke_mm[0, place] == pytest.approx(here.mean())
        assert rest.zone_pressure_kpa[0, place] == pytest.approx(law.pressure(here).mean())
        assert rest.zone_peak_kpa[0, place] == pytest.approx(law.pressure(here).max())
        assert rest.zone_gap_mm[0, place] == pytest.approx(-here.min())


def test_a_chance_has_the_error_of_a_share():
    trial = trial_of(men(150))
    told = account(trial, delivered(), delivered(), rater=Rater())
    share = trial.rest(delivered()).right.mean()
    assert told.fits.value == pytest.approx(share)
    assert told.fits.error == pytest.approx(np.sqrt(share * (1.0 - share) / 150))
