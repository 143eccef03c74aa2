"""What is tried next: the least minutes for the chance, and what may never be proposed."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.anatomy import HeadDraws, Reading, Sex, estimate_head
from helmwright.catalogue import ZONES, Zone
from helmwright.fit import Build, Rater
from helmwright.fit.cloud import draw_cloud
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.fit.finding_chances import chances
from helmwright.fit.minutes import Minutes
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.next_build import next_builds
from helmwright.fit.next_build_question import SNUG_MARGIN
from helmwright.fit.next_measure import ASKABLE
from tests.fit.ordinary import MIDDLE, OUZEL, delivered, men, moved
from tests.fit.plain_draws import PlainDraws, findings, fitted_as_delivered

FITTED = fitted_as_delivered(128)
MEN = PlainDraws(men(96))
COUNTS = [len(pad.thicknesses_mm) for pad in OUZEL.pads]
RATER = Rater()


def asked(drawn, current, **more):
    more = {"rng": np.random.default_rng(1), "rejected": [current], **more}
    return next_builds(drawn, current, **more)


def by_zone(build: Build, other: Build) -> dict[Zone, int]:
    """Steps from one build to another, by zone."""
    steps = zip(ZONES, build.pads, other.pads, strict=True)
    return {zone: there - here for zone, here, there in steps if there != here}


@pytest.mark.parametrize("name", ["front", "rear", "left", "nape", "jaw left"])
def test_one_loose_zone_gets_a_thicker_pad_and_nothing_else_changes(name):
    key = name.replace(" ", "_")
    current = moved(delivered(), **{key: -2})
    found = findings(**{key: Grade.UNDER})
    best = asked(FITTED, current, found=found).options[0]
    steps = by_zone(current, best.build)
    assert set(steps) == {Zone(name)}
    assert steps[Zone(name)] > 0
    assert best.touched_snug == ()


def test_one_tight_zone_gets_a_thinner_pad():
    current = moved(delivered(), jaw_right=2)
    best = asked(FITTED, current, found=findings(jaw_right=Grade.OVER)).options[0]
    steps = by_zone(current, best.build)
    assert set(steps) == {Zone.JAW_RIGHT}
    assert steps[Zone.JAW_RIGHT] < 0


def test_two_wrong_zones_are_changed_in_one_go():
    current = moved(delivered(), front=-2, jaw_left=2)
    found = findings(front=Grade.UNDER, jaw_left=Grade.OVER)
    steps = by_zone(current, asked(FITTED, current, found=found).options[0].build)
    assert set(steps) == {Zone.FRONT, Zone.JAW_LEFT}
    assert steps[Zone.FRONT] > 0 > steps[Zone.JAW_LEFT]


def test_a_helmet_too_high_on_the_brow_gets_a_thinner_crown_pad():
    current = moved(delivered(), crown=2)
    best = asked(FITTED, current, found=findings(brow=Grade.OVER)).options[0]
    assert by_zone(current, best.build).get(Zone.CROWN, 0) < 0
    assert Zone.CROWN not in best.touched_snug


def test_a_snug_pad_is_changed_only_where_that_saves_the_margin():
    """Counted anew: what the best build costs, against every one that leaves snug pads alone."""
    current = delivered()
    found = findings(front=Grade.UNDER, nape=Grade.UNDER)
    told = asked(MEN, current, found=found)
    best = told.options[0]
    alone = [one for one in told.options if not one.touched_snug]
    half, minutes = len(MEN) // 2, Minutes()

    def ratio(build: Build) -> float:
        trial = MEN.trial(build.shell)
        chance = RATER.found_right(trial, build, trial.rest(build, 0, half)).mean()
        return (minutes.changing(current, build, OUZEL) + minutes.trying(OUZEL)) / chance

    for other in alone:
        charge = (1.0 + SNUG_MARGIN.value) ** len(best.touched_snug)
        assert ratio(best.build) * charge <= ratio(other.build) * (1.0 + 1e-9)
    for one in told.options:
        wrong = {Zone.FRONT, Zone.NAPE}
        assert set(one.touched_snug) == set(one.changes) - wrong


def test_dear_pads_mean_fewer_changes_and_dear_try_ons_more():
    current = moved(delivered(), front=-2, rear=-1, jaw_left=2, nape=-1)
    dear = Minutes(crown_pad=40, ring_pad=40, nape_pad=40, jaw_pad=40)
    slow = Minutes(checks=60, crown_pad=0, ring_pad=0, nape_pad=0, jaw_pad=0)
    few = asked(FITTED, current, minutes=dear).options[0]
    many = asked(FITTED, current, minutes=slow).options[0]
    assert len(few.changes) < len(many.changes)
    assert many.found_right.value > few.found_right.value


def test_minutes_of_an_option_are_its_changes_and_one_try_on():
    minutes = Minutes()
    for one in asked(MEN, delivered()).options:
        assert one.changing == pytest.approx(sum(minutes.pad(zone) for zone in one.changes))
        assert one.minutes == pytest.approx(one.changing + minutes.put_on + minutes.checks)


FEW_PADS = replace(
    OUZEL,
    pads=tuple(
        replace(
            pad,
            labels=pad.labels[1:4],
            thicknesses_mm=pad.thicknesses_mm[1:4],
            part_numbers=pad.part_numbers[1:4],
            delivered=1,
        )
        if pad.zone in (Zone.CROWN, Zone.FRONT, Zone.NAPE)
        else replace(
            pad,
            labels=(pad.labels[pad.delivered],),
            thicknesses_mm=(pad.thicknesses_mm[pad.delivered],),
            part_numbers=(pad.part_numbers[pad.delivered],),
            delivered=0,
        )
        for pad in OUZEL.pads
    ),
)
"""27 builds in each shell."""


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_best_of_a_small_sheet_is_what_counting_every_build_says(seed):
    """Every build solved and priced by hand; only shells and findings are left out."""
    some = PlainDraws(men(200, seed=seed), sheet=FEW_PADS)
    counts = [range(len(pad.thicknesses_mm)) for pad in FEW_PADS.pads]
    current = Build(MIDDLE, (2, 2, 0, 0, 0, 0, 0, 0))
    minutes = Minutes(crown_pad=2.0, ring_pad=1.0)
    trial, ratios = some.trial(MIDDLE), {}
    for pads in product(*counts):
        build = Build(MIDDLE, pads)
        chance = RATER.found_right(trial, build, trial.rest(build, 0, 100)).mean()
        took = 4.0 + 2.0 * (pads[0] != 2) + 1.0 * (pads[1] != 2) + 0.4 * (pads[5] != 0)
        ratios[build] = took / chance
    del ratios[current]
    told = asked(some, current, minutes=minutes).options
    in_shell = [one.build for one in told if one.build.shell == MIDDLE]
    assert in_shell[0] == min(ratios, key=ratios.__getitem__)
    order = [ratios[build] for build in in_shell]
    # Averages of the same chances in another order of summing.
    assert order == pytest.approx(sorted(order), rel=0.02)


def estimates():
    """Heads of different sizes and of one to five measures."""
    for place, tape in enumerate((550.0, 559.0, 566.0, 571.0, 575.0, 584.0, 592.0, 608.0)):
        readings = [Reading("tape_circumference", tape)]
        if place % 2:
            readings += [Reading("head_length", 0.345 * tape), Reading("head_breadth", 152.0)]
            readings += [Reading("brow_to_top", 95.0), Reading("jaw_pad_width", 128.0)]
        yield estimate_head(readings, sex=Sex.MALE), int(2 + place // 2.7)


def test_stated_chances_are_those_of_fresh_draws():
    """Chosen and stated on the same draws they would flatter: that is shown too."""
    off, flattered, errors = [], [], []
    for seed, (estimate, shell) in enumerate(estimates()):
        rng = np.random.default_rng(seed)
        cloud = draw_cloud(estimate, OUZEL, 128, rng, rater=RATER)
        fresh = draw_cloud(estimate, OUZEL, 1500, rng, rater=RATER)
        best = asked(cloud, delivered(shell), would_measure=False).options[0]
        trial = fresh.trial(best.build.shell)
        truth = RATER.found_right(trial, best.build, trial.rest(best.build), fresh.felt_bias)
        off.append(best.found_right.value - truth.mean())
        errors.append(np.hypot(best.found_right.error, truth.std() / np.sqrt(truth.size)))
        mine = cloud.trial(best.build.shell)
        on_choosing = RATER.found_right(
            mine, best.build, mine.rest(best.build, 0, 64), cloud.felt_bias[:64]
        )
        flattered.append(on_choosing.mean() - truth.mean())
    error = np.sqrt(np.square(errors).sum()) / len(errors)
    assert abs(np.mean(off)) < 3.0 * error
    assert np.mean(flattered) > error


anywhere = st.tuples(*(st.integers(0, count - 1) for count in COUNTS))
shelves = st.tuples(*(st.sets(st.integers(0, count - 1), min_size=1) for count in COUNTS))
grades = st.lists(st.sampled_from(list(Grade)), min_size=9, max_size=9)


@settings(max_examples=12)
@given(anywhere, st.lists(anywhere, max_size=4), shelves, grades, st.integers(2, 4))
def test_nothing_rejected_or_unlisted_or_lacking_is_ever_proposed(
    here, others, shelf, answers, shell
):
    current = Build(shell, here)
    rejected = [*(Build(shell, pads) for pads in others), current]

    def allowed(build: Build) -> bool:
        there = zip(build.pads, here, shelf, strict=True)
        return build.shell == shell and all(p == now or p in on for p, now, on in there)

    keys = [zone.value.replace(" ", "_") for zone in ZONES]
    found = findings(brow=answers[8], **dict(zip(keys, answers[:8], strict=True)))
    some = PlainDraws(HeadDraws(MEN.heads.values[:48]))
    told = next_builds(
        some, current, rng=np.random.default_rng(2), rejected=rejected, allowed=allowed, found=found
    )
    for one in told.options:
        assert one.build not in rejected
        assert allowed(one.build)
        assert is_allowed(OUZEL, one.build.pads)
    again = next_builds(
        some, current, rng=np.random.default_rng(2), rejected=rejected, allowed=allowed, found=found
    )
    assert again == told


def test_a_helmet_that_slid_when_turned_is_followed_by_one_that_holds_better():
    """Found right everywhere else: by brow and zones alone nothing would be gained."""
    current = moved(delivered(), left=-1, rear=-1)
    found = (*findings(), Finding(Sign.TURN, Grade.UNDER))

    def holds(build: Build) -> float:
        trial = FITTED.trial(build.shell)
        answers = chances(RATER, trial, build, trial.rest(build), Sign.TURN)
        return float(answers[:, 1].mean())

    best = asked(FITTED, current, found=found).options[0]
    blind = asked(FITTED, current, found=findings()).options[0]
    assert holds(best.build) > holds(current) + 0.02
    assert holds(best.build) >= holds(blind.build)


def test_where_only_the_rejected_build_is_at_hand_there_is_no_option():
    current = delivered()
    told = asked(MEN, current, allowed=lambda build: build == current)
    assert told.options == ()
    assert told.measure is None


def test_a_head_that_is_far_too_large_is_offered_a_larger_shell():
    some = PlainDraws(men(96, low=602.0, high=612.0))
    ring = dict.fromkeys(("front", "rear", "left", "right"), Grade.OVER)
    minutes = Minutes(other_shell=2.0)
    best = asked(some, delivered(), found=findings(**ring), minutes=minutes).options[0]
    assert best.build.shell > MIDDLE
    pads = sum(minutes.pad(zone) for zone in best.changes)
    assert best.changing == pytest.approx(minutes.other_shell + pads)


def test_a_shell_that_was_left_keeps_the_pads_that_lie_in_it():
    """Going back to it is charged from there, not from how it was delivered."""
    some, left = PlainDraws(men(96, low=566.0, high=572.0)), moved(delivered(), jaw_left=-3)
    current, near = delivered(MIDDLE + 1), Minutes(other_shell=0.0)
    told = asked(some, current, rejected=[left, current], minutes=near)
    back = [one for one in told.options if one.build.shell == MIDDLE]
    assert back
    assert all(one.lying == left for one in back)
    assert all(one.changes == one.build.changes_from(left) for one in back)


def test_a_shell_gone_back_to_keeps_what_was_put_into_it_last():
    """A, B, A again, then another shell: A lies there, and B is what was rejected last."""
    some = PlainDraws(men(96, low=566.0, high=572.0))
    one, two = moved(delivered(), jaw_left=-3), moved(delivered(), jaw_left=-3, nape=1)
    current = delivered(MIDDLE + 1)
    told = next_builds(
        some, current, rng=np.random.default_rng(1), rejected=[one, two, current],
        tried=[one, two, one, current], minutes=Minutes(other_shell=0.0),
    )  # fmt: skip
    back = [each for each in told.options if each.build.shell == MIDDLE]
    assert back
    assert all(each.lying == one for each in back)


def test_a_cheap_measure_comes_first_where_a_try_on_is_dear():
    """Tape only: the jaw is unknown, and each try-on takes an hour."""
    taped = estimate_head([Reading("tape_circumference", 570.0)], sex=Sex.MALE)
    cloud = draw_cloud(taped, OUZEL, 768, np.random.default_rng(4), rater=RATER)
    dear = Minutes(checks=60.0)
    told = asked(cloud, delivered(), minutes=dear)
    assert told.measure is not None
    assert told.measure.gain > told.measure.error
    other = asked(cloud, delivered(), minutes=dear, skipped=[told.measure.measure]).measure
    assert other is None or other.measure != told.measure.measure
    slow = Minutes(checks=60.0, measures=dict.fromkeys(ASKABLE, 60.0))
    assert asked(cloud, delivered(), minutes=slow).measure is None
    assert asked(cloud, delivered(), minutes=dear, would_measure=False).measure is None
