"""Whole visits, led by the real guide, and what ten heads must show."""

import numpy as np
import pytest

from helmwright.anatomy import Sex, estimate_head
from helmwright.fit import Bands, Rater, unknowns
from helmwright.fit.cloud import draw_cloud
from helmwright.fit.finding import Sign
from helmwright.study.dials import TURNED, Dials
from helmwright.study.figures import told
from helmwright.study.frictionless import without_friction
from helmwright.study.known import KnownCloud, by_knowing
from helmwright.study.ours import FirstProposals, by_guide, played_checks, started
from helmwright.study.people import FIVE, TAPE
from helmwright.study.plan import Part, Plan, Sizes
from helmwright.study.players import Player, model
from helmwright.study.policies import OURS, POLICIES
from helmwright.study.results import Results
from helmwright.study.run import run
from helmwright.study.task import USUAL, Task, played
from helmwright.visit.protocol import protocol_for


def test_only_brow_and_zones_are_played_and_the_brow_has_the_limits_that_hold():
    sheet, _ = model()
    bands = Dials(limits=0.5).bands(Bands.of(sheet))
    checks = played_checks(protocol_for(sheet), bands).checks
    assert [check.sign for check in checks].count(Sign.BROW) == 1
    assert {check.zone for check in checks if check.sign is Sign.ZONE} == {
        pad.zone for pad in sheet.pads if pad.seats
    }
    assert len(checks) == 9
    (length,) = (check.length for check in checks if check.length)
    assert length.accept_mm == (bands.brow_low_mm, bands.brow_high_mm)


def test_the_program_is_told_its_readings_and_never_the_head(met):
    told_to = started(met, TAPE)
    assert {reading.measure for reading in told_to.readings} == set(TAPE)
    assert told_to.stated == {"sex": Sex.MALE, "survey": "us_army_2012"}
    assert met.player.survey == "niosh_2003"
    assert told_to.current == met.delivered


def test_friction_is_back_after_the_program_without_it():
    sheet, _ = model()
    with without_friction():
        drawn = unknowns.draw_unknowns(sheet, 5, np.random.default_rng(0))
        assert drawn.friction.max() <= 1e-3
    assert unknowns.draw_unknowns(sheet, 5, np.random.default_rng(0)).friction.min() >= 0.1


@pytest.mark.slow
def test_a_visit_led_by_the_guide_is_kept_whole_and_again_the_same(met):
    first = FirstProposals()
    visit = by_guide(met, POLICIES[OURS], first)
    tries = len(visit.right)
    assert 1 <= tries <= 8
    assert len(visit.stated) == len(visit.found) == tries
    assert all(0.0 <= chance <= 1.0 for pair in visit.stated for chance in pair)
    assert visit.row() == by_guide(met, POLICIES[OURS], FirstProposals()).row()
    assert list(first.known) == [FIVE]
    assert by_guide(met, POLICIES["five none"], first).stated[0] == visit.stated[0]


@pytest.mark.slow
def test_a_known_head_is_known_and_its_pads_are_not(met):
    visit = by_knowing(met, POLICIES["known none"])
    assert visit.stated[0][0] > 0.6
    assert len(visit.stated) == len(visit.right)
    taped = by_guide(met, POLICIES["tape none"], FirstProposals())
    assert visit.stated[0][0] > taped.stated[0][0] + 0.2


@pytest.mark.slow
def test_ten_heads_show_the_sanity_of_the_study(tmp_path):
    """Intervals wide enough for ten heads: an omen, not a measurement."""
    keys = ("one again", "all again", OURS, "known none")
    plan = Plan(Part.HEADLINE, Sizes.alike(10), keys, seed=2026)
    results = Results(tmp_path / "ten.jsonl", plan.seed, plan.origin, "abc")
    tasks = [task for task in plan.tasks(results) if task.player.sex is Sex.MALE]
    run(tasks, results, lambda: None)
    men = plan.players(10)
    by = {key: told(results.visits(men, USUAL, key)) for key in plan.policies or ()}
    assert by["one again"].right_first.value == by["all again"].right_first.value <= 0.5
    assert by["known none"].right_first.value >= 0.5
    assert by[OURS].try_ons.value < by["one again"].try_ons.value
    assert [task for task in plan.tasks(results) if task.player.sex is Sex.MALE] == []


def test_the_same_seed_plays_the_same_visits_by_rule():
    task = Task(Player(Sex.FEMALE, "us_army_2012", 2, 9), ((USUAL, ("one again", "all none")),))
    assert played(task) == played(task)


def test_every_truth_can_be_played_by_rule():
    player = Player(Sex.MALE, "us_army_2012", 1, 9)
    rows = played(Task(player, tuple((name, ("all again",)) for name in TURNED)))
    assert [row["truth"] for row in rows] == list(TURNED)
    outcomes = {str(row["visits"]) for row in rows}
    assert len(outcomes) > 5


def test_a_known_cloud_keeps_its_head_when_its_draws_move(met):
    rng = np.random.default_rng(2)
    estimate = estimate_head(met.read(FIVE), sex=Sex.MALE, survey="us_army_2012")
    drawn = draw_cloud(estimate, met.wearer.sheet, 8, rng, rater=Rater())
    cloud = KnownCloud.around(met.wearer.head, drawn)
    shell = met.delivered.shell
    before = cloud.trial(shell)
    after = cloud.moved(rng.standard_normal(cloud.standard.shape)).trial(shell)
    assert np.array_equal(before.heads.ovoids.rows, after.heads.ovoids.rows)
    assert np.array_equal(before.unknowns.zone_mm, after.unknowns.zone_mm)
    assert not np.array_equal(before.unknowns.foam, after.unknowns.foam)
