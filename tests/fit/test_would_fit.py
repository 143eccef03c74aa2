"""What would fit where nothing at hand does, and what it lacks."""

import numpy as np
import pytest

from helmwright.anatomy import HeadDraws
from helmwright.catalogue import ZONES, Zone
from helmwright.fit import Build, Rater
from helmwright.fit.next_build import next_builds
from helmwright.fit.would_fit import would_fit
from tests.fit.ordinary import MIDDLE, delivered, men, moved
from tests.fit.plain_draws import PlainDraws, fitted_as_delivered

FITTED = fitted_as_delivered(128)


def grown(factor: float) -> PlainDraws:
    """Men of the middle shell, every measure so many times as large."""
    return PlainDraws(HeadDraws(men(96).values * factor))


def only(one: Build):
    """A store with the parts of one build alone."""
    return lambda build: build == one


def beside(here: Build):
    """What such a store lacks of a build, in words."""

    def lacking(build: Build) -> tuple[str, ...]:
        other = () if build.shell == here.shell else (f"shell {build.shell}",)
        return (*other, *(f"{zone}: {build.pads[ZONES.index(zone)]}" for zone in by_zone(build)))

    def by_zone(build: Build) -> tuple[Zone, ...]:
        return build.changes_from(Build(build.shell, here.pads))

    return lacking


def test_the_one_part_that_is_missing_is_named_with_its_chance():
    """The delivered build fits them all; the helmet lies there with a thin front pad."""
    current = moved(delivered(), front=-2)
    told = next_builds(
        FITTED, current, rng=np.random.default_rng(1), rejected=[current], allowed=only(current)
    )
    assert told.options == ()
    best = would_fit(FITTED, current, lacking=beside(current), rejected=[current])[0]
    place = ZONES.index(Zone.FRONT)
    assert best.lacking == (f"front: {best.build.pads[place]}",)
    assert best.build.pads[place] > current.pads[place]
    trial = FITTED.trial(MIDDLE)
    fresh = trial.rest(best.build, 64, 128)
    assert best.fits.value == pytest.approx(fresh.right.mean())
    found = Rater().found_right(trial, best.build, fresh, np.zeros(64))
    assert best.found_right.value == pytest.approx(found.mean())


def test_another_shell_is_named_where_only_that_would_do():
    some, current = grown(1.07), delivered()
    told = would_fit(some, current, lacking=beside(current), rejected=[current])
    assert any(f"shell {one.build.shell}" in one.lacking for one in told)
    assert all(one.lacking == beside(current)(one.build) != () for one in told)
    assert all(one.build != current for one in told)
    assert len({one.lacking for one in told}) == len(told) <= 3


def test_where_no_build_of_the_model_is_worth_a_try_nothing_is_named():
    """Heads a quarter larger in every measure than those of the middle shell."""
    current = delivered(6)
    told = next_builds(grown(1.25), current, rng=np.random.default_rng(1), rejected=[current])
    assert told.options == ()
    assert would_fit(grown(1.25), current, lacking=beside(current), rejected=[current]) == ()
