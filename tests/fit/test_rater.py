"""A fitter's findings: the sharper they are, the nearer they come to what is."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.fit import Bands, Rater
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.ordinary import OUZEL, delivered, men, trial_of

SHARP = Rater(felt_noise=1e-6, felt_bias=0.0, stroke_noise_mm=1e-6, brow_noise_mm=1e-6, slip=0.0)
COUNT = 400


@cache
def worn() -> tuple[Trial, Rest]:
    trial = trial_of(men(COUNT), unknowns=draw_unknowns(OUZEL, COUNT, np.random.default_rng(1)))
    return trial, trial.rest(delivered())


def found(rater: Rater, rest: Rest | None = None) -> np.ndarray:
    trial, known = worn()
    return rater.found_right(trial, delivered(), rest or known)


def snug() -> Rest:
    """The helmet as worn, but with nothing to find fault with."""
    _, rest = worn()
    return replace(
        rest,
        brow_mm=np.full(COUNT, 25.4),
        stroke_mm=np.full_like(rest.stroke_mm, 8.0),
        zone_pressure_kpa=np.full_like(rest.zone_pressure_kpa, 1.5),
        zone_peak_kpa=np.full_like(rest.zone_peak_kpa, 2.0),
        zone_gap_mm=np.full_like(rest.zone_gap_mm, -7.0),
    )


def test_without_errors_a_fitter_finds_what_is():
    """Where a zone is far from the loose edge: there fingers judge give and the verdict pressure.

    The edge of give is the nominal foam's.
    """
    trial, rest = worn()
    ratio = rest.zone_pressure_kpa / trial.bands.loose_kpa
    edge = (ratio > 0.5) & (ratio < 2.0)
    clear = ~edge.any(axis=1)
    assert clear.sum() > 50
    assert rest.right[clear].any()
    assert np.array_equal(found(SHARP)[clear], rest.right[clear].astype(float))


def test_chances_are_chances():
    chance = found(Rater())
    assert chance.shape == (COUNT,)
    assert chance.min() >= 0.0
    assert chance.max() <= 1.0


def test_a_right_helmet_is_likelier_found_right_than_a_wrong_one():
    _, rest = worn()
    chance = found(Rater())
    assert chance[rest.right].mean() > 4.0 * chance[~rest.right].mean()
    assert chance.mean() < rest.right.mean()


@pytest.mark.parametrize(
    ("field", "factor"),
    [("zone_pressure_kpa", 1.3), ("zone_peak_kpa", 1.3), ("stroke_mm", 0.7)],
)
def test_harder_pressure_and_less_give_are_never_likelier_found_right(field, factor):
    _, rest = worn()
    worse = replace(
        rest, **{field: np.where(getattr(rest, field) > 0, factor, 1.0) * getattr(rest, field)}
    )
    assert np.all(found(Rater(), worse) <= found(Rater()) + 1e-12)


def test_a_brow_farther_from_the_middle_is_never_likelier_found_right():
    _, rest = worn()
    bands = Bands()
    middle = 0.5 * (bands.brow_low_mm + bands.brow_high_mm)
    farther = replace(rest, brow_mm=middle + 1.2 * (rest.brow_mm - middle))
    assert np.all(found(Rater(), farther) <= found(Rater()) + 1e-12)


def test_slips_let_no_helmet_be_certain():
    perfect = snug()
    # One finding for each of eight zones, and one for the brow.
    assert found(Rater(slip=0.0), perfect) == pytest.approx(1.0, abs=0.01)
    assert found(Rater(slip=0.01), perfect) == pytest.approx(0.99**9, abs=0.01)


def test_a_second_fitters_bias_spreads_the_findings_of_a_borderline_helmet():
    _, rest = worn()
    tight = replace(rest, zone_pressure_kpa=np.full_like(rest.zone_pressure_kpa, 5.0))
    together = found(Rater(felt_bias=0.3, felt_noise=0.01), tight).mean()
    # Shared by all eight zones, a bias spoils all at once; eight biases of their own would more.
    alone = found(Rater(felt_bias=0.0, felt_noise=0.3), tight).mean()
    assert together > alone


@pytest.mark.parametrize(
    "wrong",
    [
        {"felt_noise": 0.0},
        {"ear_noise_mm": 0.0},
        {"hand_noise": -1.0},
        {"stroke_noise_mm": -1.0},
        {"slip": 0.5},
        {"felt_bias": -0.1},
    ],
)
def test_errors_that_are_none_are_refused(wrong):
    with pytest.raises(ValueError, match="a fitter's"):
        Rater(**wrong)


def test_a_gap_under_part_of_a_pad_is_felt():
    whole = snug()
    open_at_one = whole.zone_gap_mm.copy()
    open_at_one[:, 1] = 4.0
    assert np.all(found(Rater(), whole) > 0.9)
    assert np.all(found(Rater(), replace(whole, zone_gap_mm=open_at_one)) < 0.1)
