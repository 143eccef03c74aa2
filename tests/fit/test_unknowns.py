"""What is not known is drawn as wide as it is said to be."""

from functools import cache

import numpy as np
import pytest

from helmwright.catalogue import ZONES, Zone
from helmwright.fit.unknowns import (
    BROW_ERROR,
    COMMON_SHARE,
    CONTACT_RESIDUAL,
    FRICTION,
    JAW_CONTACT_RESIDUAL,
    JAW_RESIDUAL,
    PULL_SCATTER,
    ZONE_RESIDUAL,
    Unknowns,
    draw_unknowns,
)
from tests.fit.ordinary import OUZEL

COUNT = 40_000
JAWS = (ZONES.index(Zone.JAW_LEFT), ZONES.index(Zone.JAW_RIGHT))


@cache
def drawn() -> Unknowns:
    return draw_unknowns(OUZEL, COUNT, np.random.default_rng(1))


def test_every_zone_stands_off_by_its_own_spread():
    spread = drawn().zone_mm.std(axis=0)
    said = [JAW_RESIDUAL.value if place in JAWS else ZONE_RESIDUAL.value for place in range(8)]
    np.testing.assert_allclose(spread, said, rtol=0.02)
    np.testing.assert_allclose(drawn().zone_mm.mean(axis=0), 0.0, atol=0.05)


def test_contacts_of_a_pad_stand_off_from_one_another_independently():
    zones = [zone for zone, pad in enumerate(OUZEL.pads) for _ in pad.seats]
    said = [JAW_CONTACT_RESIDUAL.value if z in JAWS else CONTACT_RESIDUAL.value for z in zones]
    np.testing.assert_allclose(drawn().contact_mm.std(axis=0), said, rtol=0.02)
    tie = np.asarray(np.corrcoef(drawn().contact_mm.T))
    np.testing.assert_allclose(tie[~np.eye(len(zones), dtype=bool)], 0.0, atol=0.03)


def test_zones_have_a_share_of_their_variance_in_common():
    tie = np.asarray(np.corrcoef(drawn().zone_mm.T))
    off = tie[~np.eye(8, dtype=bool)]
    np.testing.assert_allclose(off, COMMON_SHARE.value, atol=0.03)


def test_brow_friction_pull_and_foam_are_spread_as_said():
    some = drawn()
    assert some.brow_mm.std() == pytest.approx(BROW_ERROR.value, rel=0.02)
    assert some.friction.mean() == pytest.approx(FRICTION.value, abs=0.002)
    assert some.friction.std() == pytest.approx(FRICTION.spread, rel=0.02)
    assert np.log(some.pull).std() == pytest.approx(PULL_SCATTER.value, rel=0.02)
    assert np.median(some.pull) == pytest.approx(1.0, abs=0.02)
    scatter = [OUZEL.pad(zone).fit_foam.scatter for zone in ZONES]
    np.testing.assert_allclose(np.log(some.foam).std(axis=0), scatter, rtol=0.03)


def test_nothing_drawn_is_impossible():
    some = drawn()
    assert some.friction.min() >= 0.1
    assert some.friction.max() <= 0.6
    assert some.foam.min() > 0.0
    assert some.pull.min() > 0.0
    assert len(some) == COUNT


def test_the_same_generator_draws_the_same():
    one, two = (draw_unknowns(OUZEL, 5, np.random.default_rng(3)) for _ in range(2))
    assert np.array_equal(one.zone_mm, two.zone_mm)
    assert np.array_equal(one.pull, two.pull)
