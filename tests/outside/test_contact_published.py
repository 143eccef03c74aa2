"""Pad forces and friction against what others measured on people."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.anatomy import HeadDraws, Sex
from helmwright.catalogue import CUSHION, VINYL_NITRILE, ModelSheet, PadKind, Seat, Zone
from helmwright.fit import Build, Rater
from helmwright.fit.account import account
from helmwright.fit.chart import shells_to_try
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.ordinary import OUZEL, delivered, drawn, men, nothing_unknown, trial_of

PAD_MM, PAD_CM2, FIT_MM = 19.0, 25.0, 8.0
"""A 3/4-inch pad of 20 to 30 cm2, a soft layer over a stiff one: what such helmets carry."""

BUILD_PADS = (0,) * 8


def seven_pads() -> ModelSheet:
    """Crown, front, rear and two on either side; no strap, no guard, no nape or jaw pads.

    The shells are those of the invented helmet, 1.5 kg and balanced; the chart is its chart.
    """
    sides = [(50, 16), (62, 16), (118, 16), (130, 16)]
    pads = (
        one_pad(Zone.CROWN, [(0, 90), (45, 75), (135, 75), (225, 75), (315, 75)]),
        one_pad(Zone.FRONT, [(-14, 14), (0, 14), (14, 14)]),
        one_pad(Zone.REAR, [(166, 8), (180, 8), (194, 8)]),
        one_pad(Zone.LEFT, sides, pads=2),
        one_pad(Zone.RIGHT, [(-azimuth, elevation) for azimuth, elevation in sides], pads=2),
        *(one_pad(zone, []) for zone in (Zone.NAPE, Zone.JAW_LEFT, Zone.JAW_RIGHT)),
    )
    shells = tuple(
        replace(shell, mass_kg=1.5, center_of_mass_mm=(0.0, 60.0)) for shell in OUZEL.shells
    )
    return replace(OUZEL, shells=shells, pads=pads, strap_pull_n=(0.0, 0.0))


def one_pad(zone: Zone, seats: list[tuple[int, int]], pads: int = 1) -> PadKind:
    places = tuple(Seat(azimuth, elevation) for azimuth, elevation in seats)
    area = PAD_CM2 * pads if seats else 0.0
    return PadKind(zone, places, ("3/4 in",), (PAD_MM,), area, CUSHION, FIT_MM, VINYL_NITRILE, 0)


@cache
def worn() -> dict[int, tuple[Trial, Rest]]:
    """64 men and 25 women, each in the shell that the chart gives."""
    heads = [drawn(Sex.MALE, 64, seed=3).values, drawn(Sex.FEMALE, 25, seed=3).values]
    people, sheet = np.vstack(heads), seven_pads()
    tape = HeadDraws(people).of("tape_circumference")
    shells = np.array([shells_to_try(sheet, np.array([each]))[0] for each in tape])
    found = {}
    for number in np.unique(shells).tolist():
        some = HeadDraws(people[shells == number])
        unknowns = draw_unknowns(sheet, len(some), np.random.default_rng(number))
        trial = trial_of(some, shell=number, sheet=sheet, unknowns=unknowns)
        found[number] = (trial, trial.rest(Build(number, BUILD_PADS)))
    return found


def pad_forces() -> np.ndarray:
    """Force of crown, front, rear, and of the two pads of either side, shape (89, 7) [N]."""
    rows = []
    for trial, rest in worn().values():
        groups = [np.flatnonzero(trial.seating.zones == zone) for zone in range(5)]
        pads = [*groups[:3], *(half for group in groups[3:] for half in np.split(group, 2))]
        rows.append(np.column_stack([rest.force_n[:, pad].sum(axis=1) for pad in pads]))
    return np.vstack(rows)


@pytest.mark.outside("army_helmet_pads_2025")
def test_most_pads_of_a_helmet_with_seven_press_with_less_than_five_newtons():
    """Published: most pads 0 to 5 N, hot spots to 30 N, largest at the front, on 89 wearers.

    Ours, with 3/4-inch pads in our invented shells: 59 % under 5 N, largest 24 N. Apart from the
    crown, which carries the weight of 15 N on everyone here, the largest sit at front and rear.
    The foams are assumed, so the pattern is compared and not the numbers.
    """
    forces = pad_forces()
    assert forces.shape == (89, 7)
    assert np.mean(forces < 5.0) > 0.5
    assert 10.0 < forces.max() < 45.0
    assert np.quantile(forces, 0.95) < 30.0
    around = forces[:, 1:]
    assert around.max(axis=0)[:2].min() > around.max(axis=0)[2:].max()


@pytest.mark.outside("coulomb_friction")
def test_let_go_and_without_a_strap_the_crown_carries_about_the_weight():
    """Pushed on with 50 N, then let go.

    14.7 N less what the sides hold by friction, or more where they squeeze the helmet down.
    """
    weight = 1.5 * 9.80665
    crown = pad_forces()[:, 0]
    assert np.median(crown) == pytest.approx(weight, rel=0.25)
    assert crown.max() < 1.6 * weight


@pytest.mark.outside("coulomb_friction", "stark_2023")
def test_the_twist_that_friction_resists_is_mu_n_r_summed():
    """Contacts on upright walls: T = mu sum N r, r being each one's distance from the axis."""
    trial = trial_of(men(3), unknowns=nothing_unknown(3, friction=0.32))
    ring = np.isin(trial.seating.zones, [3, 4])
    forces = np.tile(np.where(ring, 2.0, 0.0), (3, 1))
    rest = replace(trial.rest(delivered()), force_n=forces)
    told = account(trial, delivered(), delivered(), rater=Rater(), rest=rest)
    reach = np.hypot(*trial.seating.points[ring, :2].T)
    assert told.twist_nm.mean == pytest.approx(0.32 * 2.0 * reach.sum() * 1e-3, rel=0.02)
    twice = account(
        trial, delivered(), delivered(), rater=Rater(), rest=replace(rest, force_n=2.0 * forces)
    )
    assert twice.twist_nm.mean == pytest.approx(2.0 * told.twist_nm.mean, rel=1e-9)


@pytest.mark.outside("coulomb_friction", "army_helmet_pads_2025")
def test_seven_pads_of_a_few_newtons_resist_about_a_newton_meter():
    """0.3 x 7 pads x 5 N x 0.09 m is 0.9 N m; ours less for its pads press with less than 5 N."""
    twists = []
    for number, (trial, rest) in worn().items():
        build = Build(number, BUILD_PADS)
        told = account(trial, build, build, rater=Rater(), rest=rest)
        twists += [told.twist_nm.mean] * len(trial)
    assert 0.3 < np.mean(twists) < 1.4
