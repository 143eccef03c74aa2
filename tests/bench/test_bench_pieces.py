"""The bench's own pieces, in tiny sizes: what it compares with must itself be right."""

import numpy as np
import pytest

from bench import first_try, gap, report, room, solvers
from bench.enumeration import HEAT, _most_behind, enumerate_box, run_against
from bench.first_try_words import reliability
from bench.newton_all import rest_all
from bench.phases import PHASES, Heads, Phase, heads_of, next_phase
from bench.policies import POLICIES, Asked
from bench.room_stations import Station, Times
from bench.scipy_rest import rest_by_minimizing, rest_by_root
from bench.speed import MIX, players, roster_file
from helmwright.anatomy import MEASURE_KEYS, Sex, estimate_head
from helmwright.catalogue import ZONES, load_packaged
from helmwright.fit import Build, Rater, proposal, propose
from helmwright.fit.search import search
from helmwright.fit.seating import pad_laws
from helmwright.fit.unknowns import draw_unknowns
from helmwright.geometry import Ovoids
from helmwright.roster import decode_roster, read_roster
from helmwright.study import people
from helmwright.study.frictionless import without_friction
from helmwright.study.true_helmet import true_rest, true_trial
from helmwright.study.truth import (
    BUMP_LENGTH,
    BUMPS,
    HAIR,
    draw_bumps,
    draw_truth,
    laws_with_hair,
)


@pytest.fixture(scope="module")
def trial():
    return max(solvers.trials_of(24, 5), key=len)


@pytest.fixture(scope="module")
def build(trial):
    return Build(trial.shell.number, trial.sheet.delivered)


@pytest.fixture(scope="module")
def heads(trial, build) -> Heads:
    return heads_of(trial, build)


@pytest.fixture(scope="module")
def true_head():
    rng = np.random.default_rng(3)
    return draw_truth(people.drawn_heads(Sex.MALE, "niosh_2003", 1, rng).values[0], rng)


def a_phase(heads: Heads) -> tuple[Phase, np.ndarray]:
    pose = np.random.default_rng(1).normal(0.0, 1.5, (len(heads), 6))
    return next_phase(heads, 0, pose, np.zeros((*heads.base.shape, 3))), pose


def test_the_gradient_is_the_slope_of_the_energy(heads: Heads):
    phase, pose = a_phase(heads)
    caps = np.full(heads.base.shape, 1.3)
    slope = phase.slopes(pose, caps)[0]
    for way in np.eye(6) * 1e-5:
        rise = (phase.energy(pose + way, caps) - phase.energy(pose - way, caps)) / 2e-5
        assert rise == pytest.approx(slope @ (way / 1e-5), abs=1e-4)


def test_the_hessian_is_the_slope_of_the_gradient(heads: Heads):
    phase, pose = a_phase(heads)
    caps = np.full(heads.base.shape, 1.3)
    bend = phase.slopes(pose, caps)[1]
    for place, way in enumerate(np.eye(6) * 1e-6):
        rise = (phase.slopes(pose + way, caps)[0] - phase.slopes(pose - way, caps)[0]) / 2e-6
        assert rise == pytest.approx(bend[:, :, place], abs=2e-3, rel=1e-4)


def test_numpy_and_scipy_find_the_rests_of_the_compiled_code(trial, build, heads: Heads):
    ours = solvers.scaled(trial.rest(build).pose)
    assert solvers.scaled(solvers.by_scalar_kernel(trial, build)) == pytest.approx(ours, abs=5e-3)
    assert rest_all(heads) == pytest.approx(ours, abs=5e-3)
    one = heads.one(0)
    for pose in (rest_by_root(one), rest_by_minimizing(one, "trust-exact")):
        assert pose == pytest.approx(ours[:1], abs=0.02)
    assert heads.brow_mm(ours) == pytest.approx(trial.rest(build).brow_mm, abs=1e-6)
    assert heads.loads.shape[0] == PHASES


def test_an_enumeration_finds_what_solving_everything_finds(trial):
    delivered = trial.sheet.delivered
    near = [delivered, *((*delivered[:6], left, right) for left in (2, 3) for right in (3, 4))]
    shares = {pads: trial.rest(Build(trial.shell.number, pads)).right.mean() for pads in near}
    found = enumerate_box(trial, near, delivered, reach=0)
    assert found.share == pytest.approx(max(shares.values()))
    assert shares[found.best] == found.share
    assert found.builds == len(set(near))


def test_a_build_is_dropped_only_when_it_cannot_win(trial):
    delivered = trial.sheet.delivered
    right = trial.rest(Build(trial.shell.number, delivered)).right
    nothing, everything = np.zeros(len(trial), dtype=bool), np.ones(len(trial), dtype=bool)
    assert np.array_equal(run_against(trial, delivered, nothing), right)
    assert run_against(trial, delivered, everything).size <= HEAT


def test_a_build_just_behind_is_never_dropped_by_the_sign_test():
    most = _most_behind(512)
    assert most[40] < 40
    assert all(most[apart] >= apart / 2 for apart in range(513))
    assert all(most[apart] == apart for apart in range(19))


@pytest.mark.parametrize("sex", list(Sex))
def test_the_gap_is_taken_on_the_draws_of_the_search_itself(sex):
    """A woman's with the hair of which nobody spoke."""
    sheet = load_packaged(gap.MODEL)
    rng = np.random.default_rng(8)
    head = people.drawn_heads(sex, "joined", 1, rng).values[0]
    estimate = estimate_head(people.readings_of(head, people.FIVE, rng), sex=sex)
    seen = []

    def watched(track, *others):
        seen.append(track)
        return search(track, *others)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(proposal, "search", watched)
        answer = propose(estimate, sheet, rng=np.random.default_rng(9))
    shell = answer.ranked[0].build.shell
    ours = gap.search_draws(estimate, sheet, shell, np.random.default_rng(9))
    theirs = seen[0].trials[shell]
    assert np.array_equal(ours.unknowns.zone_mm, theirs.unknowns.zone_mm)
    assert np.array_equal(ours.laws.thickness_mm, theirs.laws.thickness_mm)
    assert np.array_equal(ours.heads.ovoids.rows, theirs.heads.ovoids.rows)


def test_bumps_have_the_spread_and_the_reach_that_are_stated():
    rng = np.random.default_rng(4)
    there = np.array([[0.0, 0.0, 0.0], [BUMP_LENGTH.value, 0.0, 0.0], [400.0, 0.0, 0.0]])
    fields = np.array([draw_bumps(rng).at(there) for _ in range(4000)])
    assert fields.std(axis=0) == pytest.approx(BUMPS.value, rel=0.05)
    together = np.corrcoef(fields.T)[0]
    assert together[1] == pytest.approx(np.exp(-0.5), abs=0.05)
    assert together[2] == pytest.approx(0.0, abs=0.05)


def test_a_true_head_keeps_its_measures_whatever_its_dome(true_head):
    row = Ovoids(true_head.surface[None])
    angle = np.linspace(-np.pi / 2, np.pi / 2, 4001)
    direction = np.column_stack([np.sin(angle), 0 * angle, np.cos(angle)])
    middle = np.array([0.0, 0.0, row.column("middle_z")[0]])
    top = max(row.ray(0, middle, way)[2] for way in direction[1000:3001:4])
    measured = true_head.measures[MEASURE_KEYS.index("tragion_to_top")]
    assert top == pytest.approx(measured, abs=0.6)
    length = true_head.measures[MEASURE_KEYS.index("head_length")]
    assert 2.0 * row.column("half_length")[0] == pytest.approx(length)


def test_hair_lies_under_the_pads_only_where_there_is_hair():
    sheet = load_packaged(gap.MODEL)
    bare, *_, thick = laws_with_hair(sheet)
    more = (thick.thickness_mm - bare.thickness_mm)[:, 0]
    assert [bool(value) for value in more] == [
        zone not in ("front", "jaw left", "jaw right") for zone in ZONES
    ]
    assert more[0] == pytest.approx(6.0)
    assert HAIR.strain_at(np.array([2.0]))[0] > 0.7


def test_true_forces_hold_the_helmet_up(true_head):
    sheet = load_packaged(gap.MODEL)
    trial = true_trial(true_head, sheet, laws_with_hair(sheet), 4)
    rest = true_rest(true_head, trial, Build(4, sheet.delivered))
    assert rest.force_n.min() >= 0.0
    assert rest.force_n.sum() > 15.0
    assert np.isfinite(rest.brow_mm).all()


def test_a_policy_with_more_measures_sees_the_same_first_readings():
    head = people.drawn_heads(Sex.FEMALE, "us_army_2012", 1, np.random.default_rng(0)).values[0]
    few = people.readings_of(head, people.TAPE, np.random.default_rng(2))
    many = people.readings_of(head, people.FIVE, np.random.default_rng(2))
    assert set(few) < set(many)
    assert len(many) == 2 * len(people.FIVE)


def test_the_chart_policy_changes_no_pad(true_head):
    sheet = load_packaged(gap.MODEL)
    readings = people.readings_of(true_head.measures, MEASURE_KEYS, np.random.default_rng(2))
    asked = Asked(readings, "us_army_2012", Sex.MALE, sheet, pad_laws(sheet), true_head)
    chosen = POLICIES["chart"].choose(asked, np.random.default_rng(0))
    assert chosen.build.pads == sheet.delivered
    assert chosen.fits is None


def test_friction_is_back_after_the_play_without_it():
    sheet = load_packaged(gap.MODEL)
    with without_friction():
        drawn = vars(proposal)["draw_unknowns"](sheet, 3, np.random.default_rng(0))
        assert drawn.friction.max() < 0.01
    assert vars(proposal)["draw_unknowns"] is draw_unknowns


def test_heads_of_a_group_are_the_same_for_any_count():
    group = first_try.GROUPS[0]
    few, more = (first_try.true_heads(group, n, 1, None) for n in (2, 5))
    assert np.array_equal(few[1].surface, more[1].surface)
    assert few[0].hair_mm == more[0].hair_mm


def test_heads_of_a_survey_are_its_rows(shared_data):
    rng = np.random.default_rng(0)
    heads = people.surveyed_heads(shared_data, Sex.MALE, "us_army_2012", 50, rng)
    around = heads.of("head_circumference")
    assert 560.0 < around.mean() < 590.0
    assert np.abs(around - around.round()).max() < 1.5


def test_rows_that_are_not_there_are_said_to_be_missing(tmp_path):
    with pytest.raises(people.RowsMissingError, match="individual rows"):
        people.surveyed_heads(tmp_path, Sex.MALE, "niosh_2003", 1, np.random.default_rng(0))


def test_the_roster_file_reads_back_as_its_players():
    read = read_roster(decode_roster(roster_file(len(MIX), 3).encode()), unit="in")
    assert not read.problems
    written = players(len(MIX), 3)
    for player, row in zip(read.players, written, strict=True):
        assert {r.measure for r in player.readings} == {r.measure for r in row.readings}
        assert len(player.readings) == len(row.readings)


def test_a_table_takes_the_place_between_its_markers(tmp_path):
    page = tmp_path / "page.md"
    page.write_text("a\n<!-- bench: x -->\nold\n<!-- end of x -->\nb\n", encoding="utf-8")
    report.publish("x", "new", page)
    text = page.read_text(encoding="utf-8")
    assert text == "a\n<!-- bench: x -->\n\nnew\n\n<!-- end of x -->\nb\n"
    with pytest.raises(report.MissingMarkersError, match="bench: y"):
        report.publish("y", "new", page)


def test_results_come_back_as_they_were_kept(tmp_path):
    found = {"seed": 1, "heads": {"male five 0": {"lost": 0.01}}, "plays": {}}
    report.save("gap", found, tmp_path)
    assert report.load("gap", tmp_path) == found
    assert report.load("speed", tmp_path) == {}


def test_reliability_compares_what_was_said_with_what_came():
    plays = {"niosh_2003 male five": {
        "fits": "1100", "found": [1.0, 0.5, 0.0, 0.0], "stated": [0.55] * 4,
        "stated_found": [0.25] * 4,
    }}  # fmt: skip
    assert "| truly fits | 50 and 60 % | 4 | 55.0 | 50.0 | +5.0 ± 25.0 |" in reliability(plays, 4)


def test_every_part_of_the_bench_has_its_place_in_a_page():
    for name, page in report.PAGES.items():
        text = page.read_text(encoding="utf-8")
        assert text.count(f"<!-- bench: {name} -->") == 1
        assert text.count(f"<!-- end of {name} -->") == 1


def test_a_played_head_is_judged_by_the_bands_and_by_a_fitter(true_head):
    group = first_try.Group("niosh_2003", Sex.MALE, ("chart",))
    sheet = load_packaged(gap.MODEL)
    one = first_try._one(group, "chart", 0, true_head, sheet, laws_with_hair(sheet), 1)
    assert one["fits"] in "01"
    assert 0.0 <= one["found"] <= 1.0
    assert one["changed"] == 0
    assert Rater().slip > 0


def test_the_times_of_a_room_are_told_by_their_middle_and_by_the_slowest_of_twenty():
    told = room._told([0.001 * number for number in range(1, 101)], took=10.0)
    assert told == {"count": 100, "a_second": 10.0, "p50_ms": 50.5, "p95_ms": 96.0}


def test_a_station_of_the_bench_answers_what_it_is_asked():
    setting = {"stations": [{"by": "x", "session": "y"}], "players": ["p"], "store": "s"}
    station = Station(1, setting, 0, Times(), 1)
    words = [{"word": "snug", "right": True}, {"word": "tight", "right": False}]
    check = {"check": "front", "stage": "held", "answers": words}
    asked = {"message": "proposal", "next": {"message": "checks", "checks": [check]}}
    assert station._answers(asked) == [{"event": "answered", "check": "front", "word": "snug"}]
    assert station._answers({"message": "accepted"}) == []
