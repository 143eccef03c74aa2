"""Which build comes first: the best, or the plainest of those that cannot be told from it."""

import numpy as np

from helmwright.anatomy import Reading, Sex, estimate_head
from helmwright.anatomy.surface import head_shapes
from helmwright.fit.contact import Trial
from helmwright.fit.outlook import Build
from helmwright.fit.race import Runner, Track
from helmwright.fit.search import Effort, ranked, search
from helmwright.fit.seating import pad_laws
from helmwright.fit.unknowns import draw_unknowns
from helmwright.fit.verdict import Bands
from tests.fit.ordinary import MIDDLE, OUZEL, delivered, moved


def shares(*counts: int, heads: int = 1000) -> list[np.ndarray]:
    """Verdicts right on the first so many heads: nested, so that differences have little noise."""
    return [np.arange(heads) < count for count in counts]


def test_a_build_that_changes_less_wins_where_the_gain_is_not_worth_the_pads():
    start = delivered()
    swapped = moved(start, front=1, rear=-1)
    best, plain = shares(520, 505)
    assert (
        ranked([Runner(swapped, best), Runner(start, plain)], {MIDDLE: 1.0}, start, OUZEL)[0]
        == start
    )


def test_a_build_that_fits_clearly_more_often_wins_whatever_it_changes():
    start = delivered()
    swapped = moved(start, front=1, rear=-1)
    best, plain = shares(600, 505)
    order = ranked([Runner(swapped, best), Runner(start, plain)], {MIDDLE: 1.0}, start, OUZEL)
    assert order == [swapped, start]


def test_a_build_stands_for_its_mirror_image():
    start = delivered()
    one, two = moved(start, left=1, jaw_right=-1), moved(start, right=1, jaw_left=-1)
    best, other = shares(600, 598)
    found = ranked([Runner(one, best), Runner(two, other)], {MIDDLE: 1.0}, start, OUZEL)
    assert len(found) == 1
    assert found[0] in (one, two)
    turned = ranked([Runner(two, best), Runner(one, other)], {MIDDLE: 1.0}, start, OUZEL)
    assert turned == found


def test_a_helmet_whose_pads_have_sides_now_keeps_the_sides_apart():
    start = moved(delivered(), left=1)
    one, two = moved(start, right=-1), moved(start, left=-1, jaw_left=1)
    best, other = shares(600, 400)
    found = ranked([Runner(one, best), Runner(two, other)], {MIDDLE: 1.0}, start, OUZEL)
    assert found == [one, two]


def test_where_little_fits_a_little_more_is_worth_many_pads():
    start = delivered()
    swapped = moved(start, front=1, rear=-1, left=1, right=1, jaw_left=-1, jaw_right=-1)
    best, plain = shares(60, 5)
    found = ranked([Runner(swapped, best), Runner(start, plain)], {MIDDLE: 1.0}, start, OUZEL)
    assert found == [swapped, start]


def test_another_shell_must_win_by_more_the_surer_the_chart_is():
    start = delivered()
    other = Build(MIDDLE + 1, start.pads)
    best, charted = shares(550, 510)
    field = [Runner(other, best), Runner(start, charted)]
    assert ranked(field, {MIDDLE: 0.95, MIDDLE + 1: 0.05}, start, OUZEL)[0] == start
    assert ranked(field, {MIDDLE: 0.55, MIDDLE + 1: 0.45}, start, OUZEL)[0] == other
    assert ranked(field, {MIDDLE + 1: 0.95, MIDDLE: 0.05}, start, OUZEL)[0] == other


def test_the_best_of_the_charts_shell_and_what_is_there_run_to_the_end():
    head = estimate_head([Reading("tape_circumference", 579.0)], sex=Sex.MALE)
    rng = np.random.default_rng(5)
    shells = [MIDDLE + 1, MIDDLE]
    heads = head.draw(256, rng)
    shapes, unknowns = head_shapes(heads), draw_unknowns(OUZEL, 256, rng)
    trials = {
        n: Trial(OUZEL, OUZEL.shell(n), pad_laws(OUZEL), shapes, unknowns, Bands()) for n in shells
    }
    effort = Effort(climb=64, near=64, race=256, driven=64)
    odd = moved(delivered(), crown=-2, jaw_left=-3)
    field = search(Track(trials), OUZEL, odd, effort)
    whole = [runner for runner in field if runner.right.size == 256]
    assert any(runner.build.shell == shells[0] for runner in whole)
    assert {odd, *(Build(n, OUZEL.delivered) for n in shells)} <= {each.build for each in whole}
    assert len({each.build for each in field}) == len(field)
    assert [r.share for r in whole] == sorted((r.share for r in whole), reverse=True)
