"""What would fit where nothing at hand does, and what it lacks."""

import numpy as np
import pytest

from helmwright.anatomy import HeadDraws
from helmwright.catalogue import ZONES, Zone
from helmwright.fit import Build, Rater
from helmwright.fit.next_build import next_builds
from helmwright.fit.would_fit import Lack, Supply, would_fit
from tests.fit.ordinary import MIDDLE, OUZEL, delivered, men, moved
from tests.fit.plain_draws import PlainDraws, fitted_as_delivered

FITTED = fitted_as_delivered(128)


def grown(factor: float) -> PlainDraws:
    """Men of the middle shell, every measure so many times as large."""
    return PlainDraws(HeadDraws(men(96).values * factor))


def only(*builds: Build):
    return lambda build: build in builds


def test_the_one_part_that_is_missing_is_named_with_its_chance():
    """The delivered build fits them all; the helmet lies there with a thin front pad."""
    current = moved(delivered(), front=-2)
    told = next_builds(
        FITTED, current, rng=np.random.default_rng(1), rejected=[current], allowed=only(current)
    )
    assert told.options == ()
    best = would_fit(FITTED, current, allowed=only(current), rejected=[current])[0]
    place = ZONES.index(Zone.FRONT)
    assert best.lacking == (Lack(Zone.FRONT, OUZEL.pads[place].labels[best.build.pads[place]]),)
    assert best.build.pads[place] > current.pads[place]
    trial = FITTED.trial(MIDDLE)
    fresh = trial.rest(best.build, 64, 128)
    assert best.fits.value == pytest.approx(fresh.right.mean())
    found = Rater().found_right(trial, best.build, fresh, np.zeros(64))
    assert best.found_right.value == pytest.approx(found.mean())


def test_another_shell_is_named_where_only_that_would_do():
    some, current = grown(1.07), delivered()
    told = would_fit(some, current, allowed=only(current), rejected=[current])
    assert any(Lack(None, str(one.build.shell)) in one.lacking for one in told)
    assert all(one.build != current for one in told)
    assert len({one.lacking for one in told}) == len(told) <= 3


def test_where_no_build_of_the_model_is_worth_a_try_nothing_is_named():
    """Heads a quarter larger in every measure than those of the middle shell."""
    current = delivered(6)
    told = next_builds(grown(1.25), current, rng=np.random.default_rng(1), rejected=[current])
    assert told.options == ()
    assert would_fit(grown(1.25), current, allowed=only(current), rejected=[current]) == ()


def test_parts_that_are_at_hand_are_not_lacking():
    front = moved(delivered(), front=1)
    supply = Supply(OUZEL, delivered(), only(delivered(), front))
    assert supply.lacks(front) == ()
    both = moved(delivered(), front=1, rear=1)
    assert supply.lacks(both) == (Lack(Zone.REAR, "1 in"),)


def test_a_supply_shared_by_two_zones_is_told_where_it_runs_out():
    """One thick pad for the sides: either side can have it, not both."""
    left, right = moved(delivered(), left=1), moved(delivered(), right=1)
    supply = Supply(OUZEL, delivered(), only(delivered(), left, right))
    assert supply.lacks(left) == supply.lacks(right) == ()
    assert supply.lacks(moved(delivered(), left=1, right=1)) == (Lack(Zone.RIGHT, "1 in"),)


def test_a_shell_that_is_not_here_would_come_with_its_delivered_pads():
    supply = Supply(OUZEL, moved(delivered(), jaw_left=-1), lambda build: build.shell == MIDDLE)
    assert supply.lacks(delivered(4)) == (Lack(None, "4"),)
    none = Supply(OUZEL, delivered(), only(delivered()))
    lacking = none.lacks(moved(delivered(4), nape=1))
    assert lacking == (Lack(None, "4"), Lack(Zone.NAPE, "1 1/8 in"))
