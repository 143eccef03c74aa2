"""The first build of a visit is the proposal's, with what is on the shelf."""

from dataclasses import replace

import numpy as np
import pytest

from helmwright.anatomy import Reading, Sex, estimate_head
from helmwright.catalogue import ZONES, Zone
from helmwright.fit import Build, Effort, propose
from helmwright.fit.first_build import as_next
from helmwright.fit.minutes import Minutes
from helmwright.fit.proposal import NothingAtHandError
from tests.fit.ordinary import MIDDLE, OUZEL, delivered, moved

QUICK = Effort(climb=48, near=64, race=256, fresh=300, entrants=8, driven=64, driven_builds=0)
HEAD = estimate_head(
    [Reading("tape_circumference", 570.0), Reading("jaw_pad_width", 121.0)], sex=Sex.MALE
)
FRONT, JAW = ZONES.index(Zone.FRONT), ZONES.index(Zone.JAW_LEFT)


def proposed(**more):
    return propose(HEAD, OUZEL, rng=np.random.default_rng(3), effort=QUICK, **more)


def first(**more):
    return as_next(proposed(**more), OUZEL, more.get("current"), Minutes())


PROPOSAL = proposed()
FIRST = as_next(PROPOSAL, OUZEL, None, Minutes())


def test_with_everything_at_hand_it_is_the_proposals_best_with_its_numbers():
    assert [(o.build, o.fits, o.found_right, o.changes) for o in FIRST.options] == [
        (one.build, one.fits, one.found_right, one.changes) for one in PROPOSAL.ranked
    ]
    assert FIRST.draws == PROPOSAL.draws
    shelf = first(allowed=lambda _: True)
    assert shelf == FIRST


def test_what_the_shelf_lacks_is_not_proposed():
    best = FIRST.options[0].build
    assert best.pads[JAW] != OUZEL.delivered[JAW]
    told = first(allowed=lambda build: build.pads[JAW] == OUZEL.delivered[JAW])
    assert told.options
    assert all(one.build.pads[JAW] == OUZEL.delivered[JAW] for one in told.options)
    assert told.options[0].fits.value < FIRST.options[0].fits.value


def test_where_the_charts_shell_is_not_here_the_nearest_one_is_tried():
    told = proposed(allowed=lambda build: build.shell in (1, MIDDLE + 1))
    assert {one.build.shell for one in told.ranked} == {MIDDLE + 1}


def test_where_nothing_is_here_there_is_no_build():
    with pytest.raises(NothingAtHandError, match="Ouzel"):
        proposed(allowed=lambda _: False)


def test_what_lacks_one_pad_of_the_delivered_build_is_still_put_together():
    """The shelf has no front pad as delivered, so that the search must begin elsewhere."""
    told = first(allowed=lambda build: build.pads[FRONT] != OUZEL.delivered[FRONT])
    assert told.options
    assert all(one.build.pads[FRONT] != OUZEL.delivered[FRONT] for one in told.options)


def test_changes_and_minutes_count_from_what_is_in_the_helmet():
    current = moved(delivered(), jaw_left=-1, jaw_right=-1)
    minutes = Minutes()
    for one in first(current=current).options:
        lying = current if one.build.shell == MIDDLE else Build(one.build.shell, OUZEL.delivered)
        assert one.lying == lying
        assert one.changing == minutes.changing(current, one.build, OUZEL)
        assert one.minutes == one.changing + minutes.trying(OUZEL)


def test_without_a_helmet_in_hand_no_shell_is_charged_for_being_fetched():
    """Whatever shell the chart names, and whatever is here."""
    minutes = Minutes(other_shell=30.0)
    told = as_next(proposed(allowed=lambda build: build.shell == 4), OUZEL, None, minutes)
    assert {one.build.shell for one in told.options} == {4}
    for one in told.options:
        assert one.changing == sum(minutes.pad(zone) for zone in one.changes)


def test_a_measure_comes_first_where_it_pays_and_never_one_that_was_skipped():
    dear = Minutes(checks=60.0)
    told = as_next(PROPOSAL, OUZEL, None, dear)
    assert told.measure is not None
    assert not told.measure.repeat
    keys = [gain.measure for gain in PROPOSAL.next_measures]
    assert as_next(PROPOSAL, OUZEL, None, dear, keys).measure is None
    rest = as_next(PROPOSAL, OUZEL, None, dear, [told.measure.measure]).measure
    assert rest is None or rest.measure != told.measure.measure
    slow = replace(dear, measures=dict.fromkeys(keys, 60.0))
    assert as_next(PROPOSAL, OUZEL, None, slow).measure is None
