"""Which heads a model can be made to fit: only what was solved counts."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.catalogue import ZONES, ModelSheet, Zone, load_packaged
from helmwright.fit import Build
from helmwright.fit.chart import charted_shell
from helmwright.fit.contact import Trial
from helmwright.fit.coverage import (
    BORDER_MM,
    Coverage,
    Share,
    _closes,
    _some,
    _try,
    _with_thickness,
    cover,
    coverage_parts,
)
from helmwright.fit.neighborhood import is_allowed, pairs, steps
from helmwright.fit.response import respond
from helmwright.fit.tailor import Choices, Tailor, Tailored, tailored
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.ordinary import LAWS, OUZEL, delivered, men, trial_of
from tests.fit.test_neighborhood import MATCHED

HEADS = 60


def some_trial(sheet: ModelSheet = OUZEL, *, count: int = HEADS, seed: int = 4) -> Trial:
    unknowns = draw_unknowns(sheet, count, np.random.default_rng(seed))
    return trial_of(men(count), sheet=sheet, unknowns=unknowns, laws=LAWS)


@cache
def fitted(sheet: ModelSheet = OUZEL) -> tuple[Trial, Tailored]:
    trial = some_trial(sheet)
    response = respond(trial, delivered(3, sheet), len(trial))
    return trial, tailored(Tailor(response, Choices.of(sheet, LAWS)), trial)


@cache
def coverage(sheet: ModelSheet = OUZEL) -> Coverage:
    return cover(sheet, rng=np.random.default_rng(1), heads=24)


def test_a_head_that_is_called_covered_is_right_when_its_build_is_solved_by_itself():
    trial, best = fitted()
    again = [
        trial.rest(Build(3, tuple(row)), head, head + 1).right[0]
        for head, row in enumerate(best.builds.tolist())
    ]
    np.testing.assert_array_equal(best.right, again)


def test_a_head_of_which_nothing_is_known_keeps_the_build_it_began_with():
    """Nothing that was never written is taken for a build."""
    trial = some_trial(count=3)
    response = respond(trial, delivered(), len(trial))
    tailor = Tailor(response, Choices.of(OUZEL, LAWS))
    off = np.zeros_like(response.stroke_mm), np.zeros_like(response.brow_mm)
    off[0][1], off[1][1] = np.nan, np.nan
    found = tailor.sought(*off)
    assert tuple(found.builds[1]) == delivered().pads
    assert found.cost[1] > 1e6


def test_no_solved_neighbor_is_right_where_the_delivered_build_is():
    """A head that the delivered build fits keeps it: nothing is changed without need."""
    trial, best = fitted()
    right = trial.rest(delivered()).right
    assert right.any()
    assert (best.builds[right] == np.array(OUZEL.delivered)).all()
    assert best.right[right].all()


def test_far_more_heads_find_a_build_of_their_own_than_any_one_build_fits():
    trial, best = fitted()
    alone = max(trial.rest(Build(3, pads)).right.mean() for pads in
                [OUZEL.delivered, *steps(OUZEL, OUZEL.delivered)])  # fmt: skip
    assert best.right.mean() > 3 * alone
    assert best.right.mean() > 0.85


def test_hardly_any_uncovered_head_has_a_solved_change_of_a_pair_that_fits():
    """An independent search around the build found: every change of two zones, solved."""
    trial, best = fitted()
    lacking = np.flatnonzero(~best.right)
    missed = 0
    for head in lacking.tolist():
        near = pairs(OUZEL, tuple(best.builds[head].tolist()))
        missed += any(trial.rest(Build(3, pads), head, head + 1).right[0] for pads in near)
    assert missed <= HEADS // 30


def test_zones_that_must_match_are_given_the_same_pad():
    _, best = fitted(MATCHED)
    assert all(is_allowed(MATCHED, tuple(row)) for row in best.builds.tolist())
    assert best.right.mean() <= fitted()[1].right.mean() + 0.05


def test_the_shares_of_shells_and_of_heads_outside_the_chart_make_a_whole():
    told = coverage()
    whole = sum(each.share for each in told.shells) + told.below + told.above
    assert whole == pytest.approx(1.0)
    assert sum(each.share * each.covered.value for each in told.shells) == pytest.approx(
        told.covered * sum(each.share for each in told.shells)
    )


def test_the_same_seed_gives_the_same_coverage():
    once, again = (cover(OUZEL, rng=np.random.default_rng(1), heads=10) for _ in range(2))
    assert once == again


def test_every_shell_and_every_border_is_told_and_ticked():
    told, ticks = coverage(), []
    cover(OUZEL, rng=np.random.default_rng(2), heads=10, tick=lambda: ticks.append(1))
    assert len(ticks) == coverage_parts(OUZEL)
    assert [each.shell for each in told.shells] == [1, 2, 3, 4, 5, 6]
    pairs = [(each.smaller, each.larger) for each in told.borders]
    assert pairs == [(1, 2), (2, 3), (3, 4), (4, 5), (5, 6)]
    assert told.borders[1].low_mm == pytest.approx(560.0 - BORDER_MM)


def test_either_shell_fits_at_least_as_many_as_each():
    for each in coverage().borders:
        assert each.in_either.value >= max(each.in_smaller.value, each.in_larger.value)


def test_the_invented_adult_model_behaves_as_it_was_made_to():
    """About a fifth right as delivered, a build for some nine of ten in the chart's shell."""
    told = coverage()
    middle = [each for each in told.shells if each.share > 0.2]
    assert 0.10 < np.mean([each.delivered.value for each in middle]) < 0.30
    assert told.covered > 0.88


def test_the_invented_youth_model_behaves_on_youth_heads():
    told = cover(load_packaged("wren"), rng=np.random.default_rng(1), heads=40)
    assert told.ages == (8.0, 14.0)
    assert told.covered > 0.86
    middle = [each for each in told.shells if each.share > 0.2]
    assert 0.07 < np.mean([each.delivered.value for each in middle]) < 0.25
    assert told.below + told.above < 0.08


def test_a_sheet_for_younger_children_than_surveyed_is_told_of_the_heads_that_were_tried():
    told = cover(
        replace(load_packaged("wren"), ages=(5.0, 6.0)), rng=np.random.default_rng(1), heads=4
    )
    assert told.ages == (8.0, 9.0)


def test_a_helmet_of_one_thickness_has_holes_that_one_more_thickness_closes():
    """Strong predicate: pads of one side are taken away, and the search names that very side."""
    pads = list(OUZEL.pads)
    for zone in (Zone.LEFT, Zone.RIGHT):
        place = ZONES.index(zone)
        pad = pads[place]
        pads[place] = replace(
            pad, labels=pad.labels[:2], thicknesses_mm=pad.thicknesses_mm[:2], delivered=1,
            part_numbers=(),
        )  # fmt: skip
    poor = replace(OUZEL, pads=tuple(pads))
    told = cover(poor, rng=np.random.default_rng(1), heads=10)
    assert told.covered < coverage().covered - 0.05
    assert told.added is not None
    assert told.added.zones == (Zone.LEFT, Zone.RIGHT)
    assert told.added.thickness_mm == pytest.approx(22.225)
    assert told.added.closes > 0.25
    worst = next(each for each in told.shells if each.shell == 3).holes[0]
    assert worst.zone in (Zone.LEFT, Zone.RIGHT)
    assert worst.kind.value == "loose"


def test_a_thickness_that_the_sheet_has_already_closes_nothing():
    tried = _try(OUZEL, 3, np.asarray(men(HEADS).values), 1.0, np.random.default_rng(4))
    lacking = tried.lacking
    assert lacking.weight * len(lacking.trial) == pytest.approx((~tried.best.right).mean())
    same = ((Zone.FRONT,), OUZEL.pad(Zone.FRONT).thicknesses_mm[0])
    assert _closes([lacking], OUZEL, same, solved=True) == pytest.approx(0.0, abs=1.5 / HEADS)


def test_a_further_thickness_keeps_the_places_of_the_others():
    wider = _with_thickness(OUZEL, (Zone.FRONT,), 31.75)
    assert wider.pad(Zone.FRONT).thicknesses_mm == (*OUZEL.pad(Zone.FRONT).thicknesses_mm, 31.75)
    assert wider.pad(Zone.REAR) == OUZEL.pad(Zone.REAR)
    assert wider.delivered == OUZEL.delivered


def test_a_trial_on_some_heads_rests_as_those_heads_do():
    trial = some_trial()
    which = np.array([3, 17, 40])
    part = _some(trial, which).rest(delivered())
    whole = trial.rest(delivered())
    np.testing.assert_allclose(part.stroke_mm, whole.stroke_mm[which], atol=1e-9)
    np.testing.assert_allclose(part.brow_mm, whole.brow_mm[which], atol=1e-9)


def test_a_gap_between_two_bands_is_a_border_with_its_own_heads():
    shells = tuple(
        replace(shell, chart_low_mm=570.0) if shell.number == 3 else shell for shell in OUZEL.shells
    )
    gapped = replace(OUZEL, shells=shells)
    told = cover(gapped, rng=np.random.default_rng(1), heads=10)
    border = told.borders[1]
    assert (border.low_mm, border.high_mm) == pytest.approx((560 - BORDER_MM, 570 + BORDER_MM))
    assert charted_shell(gapped, np.array([565.0]))[0] == 3


def test_guessed_insides_lower_the_coverage_and_are_marked():
    told = cover(load_packaged("siskin"), rng=np.random.default_rng(1), heads=16)
    assert told.guessed
    assert not coverage().guessed
    assert told.covered < coverage().covered


def test_a_share_of_all_or_none_keeps_the_doubt_of_half_a_head():
    assert Share.of(np.ones(50, dtype=bool)).error == pytest.approx(0.01)
    assert Share.of(np.array([True, False])).error == pytest.approx(0.3536, abs=1e-4)
