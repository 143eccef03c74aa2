"""From readings to ranked builds: what every proposal keeps to."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.anatomy import HeadEstimate, Over, Reading, Sex, estimate_head
from helmwright.catalogue import ZONES, FitTopic, Instruction, ModelSheet, Zone
from helmwright.fit import Build, Effort, ForbiddenBuildError, Proposal, proposal, propose, search
from helmwright.fit.account import account
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.next_measure import ASKABLE
from helmwright.fit.outlook import LEAST_WITHIN_REACH
from helmwright.fit.race import race
from helmwright.fit.seating import PadLaws, pad_laws
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.ordinary import LAWS, OUZEL, delivered, trial_of
from tests.fit.test_neighborhood import MATCHED, even
from tests.fit.test_response import without_a_nape_pad

QUICK = Effort(climb=64, near=192, race=192, fresh=600, entrants=8)

TAPE = {"tape_circumference": 570.0}
FIVE = TAPE | {
    "head_length": 199.0, "head_breadth": 154.0, "brow_to_top": 101.0, "jaw_pad_width": 132.0,
}  # fmt: skip


def estimate(readings: dict[str, float]) -> HeadEstimate:
    return estimate_head([Reading(key, value) for key, value in readings.items()], sex=Sex.MALE)


def proposed(
    readings: dict[str, float],
    *,
    seed: int = 1,
    sheet: ModelSheet = OUZEL,
    laws: PadLaws = LAWS,
    current: Build | None = None,
) -> Proposal:
    return propose(
        estimate(readings), sheet, rng=np.random.default_rng(seed), effort=QUICK, laws=laws,
        current=current,
    )  # fmt: skip


@cache
def usual(kind: str) -> Proposal:
    return proposed({"tape": TAPE, "five": FIVE}[kind])


@pytest.mark.parametrize("kind", ["tape", "five"])
def test_a_proposal_names_allowed_builds_with_what_is_expected_of_every_zone(kind):
    told = usual(kind)
    assert 1 <= len(told.ranked) <= QUICK.ranked
    for outlook in (*told.ranked, told.delivered):
        assert is_allowed(OUZEL, outlook.build.pads)
        assert tuple(zone.zone for zone in outlook.zones) == ZONES
        assert 0.0 <= outlook.found_right.value <= 1.0
        assert outlook.fits.error >= 0.5 / QUICK.fresh
        for zone, pad in zip(outlook.zones, outlook.build.pads, strict=True):
            assert zone.pad_mm == OUZEL.pad(zone.zone).thicknesses_mm[pad]
            assert zone.stroke_mm.low <= zone.stroke_mm.mean <= zone.stroke_mm.high
    assert told.draws == QUICK.fresh
    assert sum(one.chance for one in told.shells) <= 1.0 + 1e-9


def test_builds_are_ranked_once_each():
    builds = [outlook.build for outlook in usual("five").ranked]
    assert len(set(builds)) == len(builds)


def test_five_measures_give_a_higher_chance_than_the_tape_alone():
    five, tape = usual("five").ranked[0].fits, usual("tape").ranked[0].fits
    assert five.value - tape.value > 3.0 * np.hypot(five.error, tape.error)


def test_the_first_build_is_no_worse_than_the_delivered_one_beyond_error():
    told = usual("five")
    best, delivered_one = told.ranked[0].fits, told.delivered.fits
    assert best.value > delivered_one.value - 3.0 * np.hypot(best.error, delivered_one.error)


def test_a_head_unlike_the_delivered_build_gets_other_pads_and_a_far_better_chance():
    """A long narrow low head: the delivered build hardly ever fits it."""
    odd = FIVE | {"head_length": 206.0, "head_breadth": 146.0, "brow_to_top": 92.0}
    told = proposed(odd)
    assert told.ranked[0].changes
    assert told.ranked[0].fits.value > 2.0 * told.delivered.fits.value + 0.1


def test_a_fitter_finds_right_less_often_than_fits():
    for outlook in usual("five").ranked:
        assert outlook.found_right.value < outlook.fits.value


def test_the_same_generator_gives_the_same_answer():
    assert proposed(TAPE, seed=5) == proposed(TAPE, seed=5)


def test_chances_are_stated_on_draws_that_chose_nothing(monkeypatch):
    """The trials that race and the trials that state the chances hold different heads."""
    seen: dict[str, list[np.ndarray]] = {"race": [], "state": []}

    def watched_race(track, builds, heads):
        seen["race"] += [trial.heads.ovoids.rows for trial in track.trials.values()]
        return race(track, builds, heads)

    def watched_account(trial, *args, **kwargs):
        seen["state"].append(trial.heads.ovoids.rows)
        return account(trial, *args, **kwargs)

    monkeypatch.setattr(search, "race", watched_race)
    monkeypatch.setattr(proposal, "account", watched_account)
    proposed(TAPE)
    assert seen["race"]
    assert seen["state"]
    raced = {row.tobytes() for rows in seen["race"] for row in rows}
    stated = {row.tobytes() for rows in seen["state"] for row in rows}
    assert not raced & stated
    assert len(stated) == QUICK.fresh


def test_the_stated_chance_is_the_share_of_new_heads_on_which_it_fits():
    """Counted once more on 3000 heads of other draws: within four standard errors."""
    rng, one = np.random.default_rng(77), usual("five").ranked[0]
    heads, unknowns = estimate(FIVE).draw(3000, rng), draw_unknowns(OUZEL, 3000, rng)
    again = trial_of(heads, shell=one.build.shell, unknowns=unknowns).rest(one.build).right
    error = np.hypot(again.std() / np.sqrt(again.size), one.fits.error)
    assert abs(again.mean() - one.fits.value) < 4.0 * error


def test_matched_zones_stay_matched():
    sheet = MATCHED
    told = proposed(FIVE, sheet=sheet, laws=pad_laws(sheet))
    for outlook in told.ranked:
        assert outlook.build.pads == even(outlook.build.pads)


@pytest.mark.parametrize("tape", [470.0, 655.0])
def test_a_head_far_outside_the_chart_gets_an_answer_that_says_so(tape):
    """Thick pads reach 30 mm below the chart; 50 mm below it, or 15 above, hardly any head fits."""
    told = proposed({"tape_circumference": tape})
    assert told.ranked
    assert sum(one.chance for one in told.shells) < 0.05
    assert told.ranked[0].fits.value < 0.15
    assert not told.suits


def test_changes_are_counted_from_the_build_in_the_helmet():
    current = Build(3, (1, 2, 2, 2, 2, 2, 3, 3))
    told = proposed(FIVE, current=current)
    for outlook in told.ranked:
        differing = {
            zone
            for zone, mine, theirs in zip(ZONES, outlook.build.pads, current.pads, strict=True)
            if mine != theirs
        }
        assert set(outlook.changes) == differing


@pytest.mark.parametrize(("kind", "read"), [("tape", TAPE), ("five", FIVE)])
def test_every_measure_is_weighed_and_what_was_read_counts_as_a_repeat(kind, read):
    gains = usual(kind).next_measures
    assert {gain.measure for gain in gains} == set(ASKABLE)
    assert {gain.measure for gain in gains if gain.repeat} == set(read)
    assert all(gain.minutes > 0.0 for gain in gains)


def test_what_drives_a_chance_is_counted_for_the_builds_asked_for_and_changes_no_chance():
    best = usual("five")
    assert best.ranked[0].drivers
    assert not any(outlook.drivers for outlook in best.ranked[1:] if outlook != best.ranked[0])
    close = propose(
        estimate(FIVE), OUZEL, rng=np.random.default_rng(1), laws=LAWS,
        effort=replace(QUICK, driven=100, driven_builds=5),
    )  # fmt: skip
    for one in (*close.ranked, close.delivered):
        moves = [abs(driver.largest.value) for driver in one.drivers]
        assert moves == sorted(moves, reverse=True)
        assert len(moves) >= 5
    plain = [replace(one, drivers=()) for one in (*best.ranked, best.delivered)]
    assert plain == [replace(one, drivers=()) for one in (*close.ranked, close.delivered)]


def test_within_reach_is_no_less_than_the_best_build_on_the_same_heads():
    for told in (usual("tape"), usual("five")):
        assert told.within_reach > told.ranked[0].fits.value - 0.1
        assert told.suits == (told.within_reach >= LEAST_WITHIN_REACH.value)


def test_faults_are_told_likeliest_first_and_loose_and_tight_as_in_the_zones():
    outlook = usual("tape").ranked[0]
    chances = [fault.chance for fault in outlook.faults]
    assert chances == sorted(chances, reverse=True)
    zones = {zone.zone: zone for zone in outlook.zones}
    for fault in outlook.faults:
        if fault.zone is None:
            continue
        if fault.kind == "loose":
            assert fault.chance == zones[fault.zone].loose
        if fault.kind == "tight":
            assert fault.chance == zones[fault.zone].tight


def test_a_helmet_without_nape_pads_is_proposed_for():
    sheet = without_a_nape_pad()
    told = proposed(TAPE, sheet=sheet, laws=pad_laws(sheet))
    nape = told.ranked[0].zones[ZONES.index(Zone.NAPE)]
    assert nape.force_n.mean == 0.0
    assert nape.loose == nape.tight == 0.0


@pytest.mark.parametrize(
    "wrong",
    [
        {"climb": 8},
        {"climb": 600},
        {"fresh": 50},
        {"entrants": 0},
        {"ranked": 0},
        {"driven": 1},
        {"driven": 5000},
        {"driven_builds": -1},
    ],
)
def test_an_effort_that_decides_on_nothing_is_refused(wrong):
    with pytest.raises(ValueError, match="effort needs"):
        replace(Effort(), **wrong)


def test_a_build_knows_where_it_differs():
    other = Build(3, (*OUZEL.delivered[:6], 1, 3))
    assert delivered().changes_from(other) == (Zone.JAW_LEFT,)
    assert delivered().changes_from(delivered(4)) == ()


@pytest.mark.parametrize("current", [Build(99, (2,) * 8), Build(3, (2, 2, 2, 2, 2, 2, 3, 9))])
def test_a_build_that_the_sheet_does_not_have_is_refused(current):
    with pytest.raises(ForbiddenBuildError, match="one of its shells"):
        proposed(TAPE, current=current)


def test_the_makers_brow_height_wins_over_the_default():
    higher = Instruction(FitTopic.BROW_HEIGHT, "Two finger widths.", (38.0, 51.0))
    told = proposed(FIVE, sheet=replace(OUZEL, instructions=(higher,)))
    brow = told.ranked[0].brow_mm.mean
    assert brow > usual("five").ranked[0].brow_mm.mean + 6.0
    assert 32.0 < brow < 57.0


def test_nobody_is_said_to_be_unsuited_before_the_head_is_measured():
    told = proposed({})
    assert not told.measured
    assert told.suits
    assert usual("tape").measured
    assert proposed({"head_length": 199.0, "head_breadth": 154.0}).measured


def test_a_head_that_nobody_has_measured_is_worth_measuring():
    told = propose(estimate({}), OUZEL, rng=np.random.default_rng(1), laws=LAWS)
    assert {gain.measure for gain in told.next_measures} == set(ASKABLE)
    assert told.next_measures[0].gain > 2.0 * told.next_measures[0].error


def test_over_a_cap_the_same_tape_leads_to_other_pads_but_hardly_another_shell():
    over = [Reading("tape_circumference", 570.0, Over.SKULL_CAP)]
    told = propose(
        estimate_head(over, sex=Sex.MALE), OUZEL, rng=np.random.default_rng(1), effort=QUICK
    )
    assert told.shells[0].shell == usual("tape").shells[0].shell
    assert abs(told.ranked[0].fits.value - usual("tape").ranked[0].fits.value) < 0.1
