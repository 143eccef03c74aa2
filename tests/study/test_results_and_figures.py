"""What was played is kept line by line, and told as means with their errors."""

import json
from typing import Any

import numpy as np
import pytest

from helmwright.fit.minutes import Minutes
from helmwright.study.aims import AIMS, Aim
from helmwright.study.figures import (
    FOUND,
    TRULY,
    Share,
    accepted_when,
    measured,
    ratio,
    stated,
    told,
)
from helmwright.study.page import MissingMarkersError, put
from helmwright.study.plan import SEED, Part, Plan, Sizes
from helmwright.study.policies import OURS
from helmwright.study.results import Results, ResultsOfAnotherRunError
from helmwright.study.tables import HEADS, tables, verdict
from helmwright.study.task import USUAL


def visit(tries: int, right: list[int], stated: list[list[float]], **more) -> dict[str, Any]:
    found = [int(number + 1 == tries) for number in range(len(right))]
    usual = {"clear": 0, "felt": 0, "pads": {"crown": 2}, "shells": 0, "looks": 1}
    return usual | {"tries": tries, "right": right, "found": found, "stated": stated} | more


def row(index: int, visits: dict[str, Any], seed: int = SEED) -> dict[str, Any]:
    return {
        "seed": seed, "heads": "summaries", "sex": "male", "survey": "us_army_2012",
        "index": index, "truth": USUAL, "visits": visits,
    }  # fmt: skip


VISITS = [
    visit(1, [1], [[0.6, 0.5]]),
    visit(2, [0, 1], [[0.5, 0.4], [0.8, 0.7]]),
    visit(1, [0], [[0.4, 0.3]], clear=1),
    visit(9, [0] * 8, [[0.3, 0.2]] * 8),
]


def test_a_run_goes_on_after_a_line_that_was_cut_off(tmp_path):
    path = tmp_path / "study.jsonl"
    first = Results(path, SEED, "summaries", "abc")
    first.add([row(0, {OURS: VISITS[0]})])
    whole = path.read_bytes()
    path.write_bytes(whole + b'{"seed":2027,"heads":"summ')
    again = Results(path, SEED, "summaries", "abc")
    assert path.read_bytes() == whole
    plan = Plan(Part.HEADLINE, heads=Sizes.alike(1), policies=(OURS,))
    assert plan.tasks(Results(None, SEED, "summaries", "abc"))
    players = [task.player.index for task in plan.tasks(again) if task.player.sex.value == "male"]
    assert players == []
    again.add([row(0, {"one none": VISITS[1]})])
    kept = Results(path, SEED, "summaries", "abc").played(plan.players(2)[0], USUAL)
    assert kept.keys() == {OURS, "one none"}
    assert len(path.read_text(encoding="utf-8").splitlines()) == 2


def test_results_of_another_seed_are_not_mixed_in(tmp_path):
    path = tmp_path / "study.jsonl"
    Results(path, 1, "summaries", "abc").add([row(0, {}, seed=1)])
    with pytest.raises(ResultsOfAnotherRunError, match="of seed 1, not from summaries of seed 2"):
        Results(path, 2, "summaries", "abc")


@pytest.mark.parametrize("line", [{"program": "older"}, {}])
def test_visits_of_another_program_are_not_mixed_in(tmp_path, line):
    path = tmp_path / "study.jsonl"
    text = json.dumps(row(0, {OURS: VISITS[0]}) | line) + "\n"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ResultsOfAnotherRunError, match=r"this one is newer: .* name a new file"):
        Results(path, SEED, "summaries", "newer")
    assert path.read_text(encoding="utf-8") == text


def test_every_line_carries_the_fingerprint_of_the_program_that_played_it(tmp_path):
    path = tmp_path / "study.jsonl"
    Results(path, SEED, "summaries", "abc").add([row(0, {}), row(1, {})])
    lines = path.read_text(encoding="utf-8").splitlines()
    assert [json.loads(line)["program"] for line in lines] == ["abc", "abc"]


def test_visits_come_to_means_and_shares():
    found = told(VISITS)
    assert found.try_ons.value == pytest.approx(13 / 4)
    assert found.try_ons.error == pytest.approx(np.std([1, 2, 1, 9]) / 2)
    assert (found.median, found.never.value) == (1.5, 0.25)
    assert found.found_first.value == 0.5
    assert found.right_first.value == 0.25
    assert found.false.value == pytest.approx(1 / 3)
    assert found.clear.value == 0.25
    assert found.pads.value == 2.0
    assert found.counts == (2, 1, 0, 0, 0, 0, 0, 0, 1)


def test_a_visit_without_any_build_counts_as_neither_right_nor_fitted():
    found = told([visit(9, [], []), visit(1, [1], [[0.6, 0.5]])])
    assert found.right_first.value == found.never.value == 0.5
    assert told([visit(9, [], [])]).false.count == 0


def test_rounds_are_told_by_what_they_accept_of_right_and_wrong_builds():
    right, wrong = (accepted_when(VISITS, right=which) for which in (True, False))
    assert (right.value, right.count) == (1.0, 2)
    assert (wrong.value, wrong.count) == (0.1, 10)
    assert accepted_when([], right=True).count == 0


def test_a_ratio_of_means_has_the_error_that_drawing_heads_again_shows():
    rng = np.random.default_rng(3)
    theirs = rng.integers(1, 9, 400)
    mine = np.clip(theirs // 2 + rng.integers(0, 3, 400), 1, 9)
    rows = [[{"tries": int(n)} for n in some] for some in (mine, theirs)]
    again = []
    for _ in range(800):
        which = rng.integers(0, 400, 400)
        again.append(mine[which].mean() / theirs[which].mean())
    found = ratio(*rows)
    assert found.value == pytest.approx(mine.mean() / theirs.mean())
    assert found.error == pytest.approx(np.std(again), rel=0.15)


def test_stated_chances_are_held_against_what_came_try_on_by_try_on():
    whole = stated(VISITS[:3], TRULY)
    assert whole.stated.tolist() == [0.6, 0.5, 0.8, 0.4]
    assert whole.came.tolist() == [1.0, 0.0, 1.0, 0.0]
    assert whole.difference().value == pytest.approx(0.575 - 0.5)
    assert stated(VISITS[:3], TRULY, (2, 2)).stated.tolist() == [0.8]
    assert stated(VISITS[:3], FOUND).came.tolist() == [1.0, 0.0, 1.0, 1.0]
    assert sum(int(fifth.sum()) for fifth in whole.fifths()) == 4


def test_the_error_of_a_difference_takes_visits_and_not_try_ons_as_independent():
    rng = np.random.default_rng(8)
    chances = rng.random(300)
    once = [visit(1, [int(rng.random() < p)], [[p, p]]) for p in chances]
    eight = [visit(9, one["right"] * 8, one["stated"] * 8) for one in once]
    single, repeated = (stated(some, TRULY).difference() for some in (once, eight))
    assert single.value == pytest.approx(repeated.value)
    assert repeated.error == pytest.approx(single.error)
    assert abs(single.value) < 3 * single.error


def _nothing(*visits) -> Share:
    return Share(0.0, 0.0, len(visits))


def test_an_aim_is_met_or_missed_by_so_much():
    most = Aim("x", OURS, _nothing, 1.8, 1.55, percent=False)
    least = Aim("x", OURS, _nothing, 0.5, at_least=True)
    assert verdict(most, Share(1.9, 0.1, 9)) == "missed by 0.10"
    assert verdict(most, Share(1.7, 0.1, 9)) == "met; ambitious missed by 0.15"
    assert verdict(most, Share(1.5, 0.1, 9)) == "met, ambitious too"
    assert verdict(least, Share(0.47, 0.1, 9)) == "missed by 3.0 points"
    assert verdict(least, Share(0.52, 0.1, 9)) == "met"
    assert len({(aim.title, aim.policy, aim.against, aim.limit) for aim in AIMS}) >= len(AIMS) - 1


def test_tables_say_where_their_heads_are_from_and_what_was_found():
    plan = Plan(Part.HEADLINE, heads=Sizes.alike(2))
    results = Results(None, SEED, "summaries", "abc")
    for number, each in enumerate(VISITS[:2]):
        survey = plan.players(2)[number].survey
        results.add([row(0, {OURS: each, "one again": VISITS[3]}) | {"survey": survey}])
    text = tables(plan, results)
    assert "drawn from the surveys' published summaries" in text
    assert "| ours, five measures | what is doubtful | 2 | 1.50 ± 0.35 |" in text
    assert "| of one zone, each with its own looks | 50 % |" in text
    assert "| of one zone a try-on, bad answers twice |" not in text
    ours, chart = (minutes(text, who) for who in ("ours, five", "chart, one"))
    assert ours == pytest.approx(told(VISITS[:2]).minutes.value + 4.1, abs=0.06)
    assert chart == pytest.approx(told([VISITS[3]] * 2).minutes.value + 1.0, abs=0.06)


def minutes(text: str, who: str) -> float:
    """The minutes of somebody's line in the table of visits."""
    lines = text.partition("### Visits")[2].splitlines()
    line = next(line for line in lines if line.startswith(f"| {who}"))
    return float(line.split("|")[1 + HEADS.index("minutes (assumed)")].partition("±")[0])


def test_aims_against_a_rule_compare_under_the_same_looks_too():
    compared = {(aim.policy, aim.against) for aim in AIMS if aim.against}
    for rule in ("one", "all"):
        for looks in ("none", "again"):
            assert (f"five {looks}", f"{rule} {looks}") in compared


def test_where_nothing_came_the_share_is_not_told_as_sure():
    """None in 1000 has an error of a tenth of a point, as one in 1000 has; half has the usual."""
    none, half = Share.of_bits([0.0] * 1000), Share.of_bits([0.0, 1.0] * 500)
    assert none.value == 0.0
    assert none.error == pytest.approx(0.001, rel=0.01)
    assert half.error == pytest.approx(Share.of([0.0, 1.0] * 500).error, rel=1e-3)
    assert Share.of_bits([]).count == 0


def test_what_was_measured_beforehand_takes_its_minutes():
    whole = Share(20.0, 1.0, 9)
    found = measured(whole, ("head_length", "head_breadth"), Minutes(measures={"head_length": 2.0}))
    assert found.value == pytest.approx(22.0 + Minutes().measuring("head_breadth"))
    assert (found.error, found.count) == (1.0, 9)


def test_a_page_without_markers_is_left_alone(tmp_path):
    page = tmp_path / "study.md"
    page.write_text("a\n<!-- study -->\nold\n<!-- end of study -->\nb\n", encoding="utf-8")
    put("new", page)
    text = page.read_text(encoding="utf-8")
    assert text == "a\n<!-- study -->\n\nnew\n\n<!-- end of study -->\nb\n"
    assert json.dumps([path.name for path in tmp_path.iterdir()]) == '["study.md"]'
    page.write_text("a\n", encoding="utf-8")
    with pytest.raises(MissingMarkersError, match=r"study\.md needs the lines"):
        put("new", page)
