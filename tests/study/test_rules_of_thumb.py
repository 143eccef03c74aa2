"""The rules that the program is compared with do what a fitter would call them."""

from dataclasses import replace

import numpy as np
import pytest

from helmwright.catalogue import ZONES, Zone
from helmwright.fit import Build
from helmwright.fit.finding import Grade
from helmwright.fit.neighborhood import is_allowed
from helmwright.study.rules import BROW, Remembered, all_zones, one_zone
from helmwright.study.visits import by_rule, middle

RIGHT = dict.fromkeys((BROW, *ZONES), Grade.RIGHT)


@pytest.fixture(scope="module")
def tried(met):
    return met.wearer.tried_on(met.delivered, 1)


def rng() -> np.random.Generator:
    return np.random.default_rng(1)


def changes(before: Build, after: Build) -> dict[Zone, int]:
    pairs = zip(ZONES, before.pads, after.pads, strict=True)
    return {zone: new - old for zone, old, new in pairs if new != old}


def test_one_zone_is_changed_a_step_and_the_height_comes_first(tried):
    found = RIGHT | {BROW: Grade.UNDER, Zone.FRONT: Grade.OVER, Zone.NAPE: Grade.UNDER}
    build = one_zone(found, tried, Remembered(), rng())
    assert changes(tried.build, build) == {Zone.CROWN: 1}
    build = one_zone(found | {BROW: Grade.RIGHT}, tried, Remembered(), rng())
    assert changes(tried.build, build) == {Zone.FRONT: -1}


def test_a_build_found_wrong_is_passed_over_for_the_next_zone(tried):
    found = RIGHT | {Zone.FRONT: Grade.OVER, Zone.NAPE: Grade.UNDER}
    first = one_zone(found, tried, Remembered(), rng())
    build = one_zone(found, tried, Remembered(wrong={first}), rng())
    assert changes(tried.build, build) == {Zone.NAPE: 1}


def test_every_wrong_zone_is_changed_at_once(tried):
    found = RIGHT | {BROW: Grade.OVER, Zone.LEFT: Grade.UNDER, Zone.REAR: Grade.OVER}
    build = all_zones(found, tried, Remembered(), rng())
    assert changes(tried.build, build) == {Zone.CROWN: -1, Zone.LEFT: 1, Zone.REAR: -1}


@pytest.mark.parametrize(("grade", "step"), [(Grade.UNDER, -1), (Grade.OVER, 1)])
def test_another_shell_is_fetched_when_a_zone_is_out_of_pads(tried, grade, step):
    last = len(tried.trial.sheet.pad(Zone.FRONT).labels) - 1
    pads = list(tried.build.pads)
    pads[ZONES.index(Zone.FRONT)] = last if grade is Grade.UNDER else 0
    at_end = replace(tried, build=Build(tried.build.shell, tuple(pads)))
    found = RIGHT | {Zone.FRONT: grade}
    for rule in (one_zone, all_zones):
        mind = Remembered({at_end.build}, {at_end.build.shell})
        build = rule(found, at_end, mind, rng())
        assert build == Build(tried.build.shell + step, tried.trial.sheet.delivered)
        mind.shells.add(build.shell)
        assert rule(found, at_end, mind, rng()).shell == tried.build.shell


@pytest.mark.parametrize("zone", [Zone.NAPE, Zone.JAW_LEFT, Zone.JAW_RIGHT])
@pytest.mark.parametrize("grade", [Grade.UNDER, Grade.OVER])
def test_a_jaw_or_nape_out_of_pads_fetches_no_shell(tried, zone, grade):
    pads = list(tried.build.pads)
    last = len(tried.trial.sheet.pad(zone).labels) - 1
    pads[ZONES.index(zone)] = last if grade is Grade.UNDER else 0
    at_end = replace(tried, build=Build(tried.build.shell, tuple(pads)))
    mind = Remembered({at_end.build, tried.build}, {at_end.build.shell})
    found = RIGHT | {zone: grade, Zone.LEFT: Grade.UNDER}
    for rule in (one_zone, all_zones):
        build = rule(found, at_end, mind, rng())
        assert build.shell == at_end.build.shell
        assert changes(at_end.build, build)[Zone.LEFT] == 1


@pytest.mark.parametrize("rule", [one_zone, all_zones])
@pytest.mark.parametrize(
    "wrong",
    [
        {Zone.JAW_LEFT: Grade.OVER},
        {BROW: Grade.UNDER, Zone.NAPE: Grade.OVER},
        {Zone.FRONT: Grade.OVER, Zone.REAR: Grade.UNDER, Zone.JAW_RIGHT: Grade.OVER},
    ],
)
def test_no_rule_puts_a_build_found_wrong_on_again(tried, rule, wrong):
    """However often the same answers come: whatever shells there are, eight builds are left."""
    mind, at, chosen = Remembered(), tried, [tried.build]
    for number in range(8):
        mind.wrong.add(at.build)
        mind.shells.add(at.build.shell)
        build = rule(RIGHT | wrong, at, mind, np.random.default_rng(number))
        chosen.append(build)
        at = replace(at, build=build)
    assert len(set(chosen)) == len(chosen)
    assert all(is_allowed(tried.trial.sheet, build.pads) for build in chosen)


def test_what_is_left_is_sought_where_the_answers_point(tried):
    found = RIGHT | {Zone.FRONT: Grade.OVER, Zone.NAPE: Grade.UNDER}
    singles = [one_zone(found, tried, Remembered(), rng())]
    singles.append(one_zone(found, tried, Remembered(wrong=set(singles)), rng()))
    both = one_zone(found, tried, Remembered(wrong=set(singles)), rng())
    assert changes(tried.build, both) == {Zone.FRONT: -1, Zone.NAPE: 1}


def test_jaw_pads_held_up_at_the_first_change_end_within_a_step_of_the_middle(tried):
    laws, place = tried.trial.laws, ZONES.index(Zone.JAW_LEFT)
    room = laws.thickness_mm[place][tried.build.pads[place]] - tried.rest.zone_stroke_mm[0, place]
    strokes = laws.thickness_mm[place] - room
    edges = [[laws.stroke(Zone.JAW_LEFT, n, kpa) for n in range(6)] for kpa in (0.7, 6.0)]
    wanted = np.argmin(np.abs(strokes[:6] - np.mean(edges, axis=0)))
    found = RIGHT | {Zone.JAW_LEFT: Grade.UNDER}
    chosen = {
        all_zones(found, tried, Remembered({tried.build}), np.random.default_rng(n)).pads[place]
        for n in range(40)
    }
    assert len(chosen) > 1
    assert max(abs(pad - wanted) for pad in chosen) <= 1


@pytest.mark.parametrize(
    ("grades", "stands"),
    [
        ((Grade.OVER, Grade.UNDER, Grade.RIGHT), Grade.RIGHT),
        ((Grade.UNDER, Grade.RIGHT, Grade.UNDER), Grade.UNDER),
        ((Grade.RIGHT, Grade.OVER, Grade.RIGHT), Grade.RIGHT),
    ],
)
def test_the_middle_of_three_answers_stands(met, grades, stands):
    look = met.fitter.reads_brow(met.wearer.tried_on(met.delivered, 1), 1)
    assert middle([replace(look, grade=grade) for grade in grades]) is stands


def test_a_visit_by_rule_counts_its_pads_try_ons_and_looks(met):
    calm, again = (
        by_rule(all_zones, met.delivered, met.wearer, met.fitter, again=again)
        for again in (False, True)
    )
    assert calm.looks == 0
    assert again.looks % 2 == 0
    for visit in (calm, again):
        assert visit.right[0] == met.wearer.tried_on(met.delivered, 1).is_right
        assert len(visit.right) == len(visit.found) <= 8
        assert visit.try_ons == (len(visit.right) if visit.accepted else 9)
    assert calm.found[0] == again.found[0]
