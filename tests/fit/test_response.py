"""The quick guess about a solved build, and the climb over it."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.catalogue import CUSHION, ModelSheet, Zone
from helmwright.catalogue.reading.pads import absent_pad
from helmwright.fit import Build
from helmwright.fit.climb import climb
from helmwright.fit.contact import Trial
from helmwright.fit.neighborhood import is_allowed, singles
from helmwright.fit.response import Response, respond
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.ordinary import OUZEL, delivered, men, trial_of
from tests.fit.test_neighborhood import MATCHED, even

COUNT = 80


@cache
def trial() -> Trial:
    return trial_of(men(COUNT), unknowns=draw_unknowns(OUZEL, COUNT, np.random.default_rng(6)))


@cache
def guess() -> Response:
    return respond(trial(), delivered(), COUNT)


def test_at_the_build_that_was_solved_the_guess_is_the_rest():
    right, faults = guess().verdicts([OUZEL.delivered])
    assert np.array_equal(right[0].astype(bool), trial().rest(delivered()).right)
    assert np.array_equal(faults[0] == 0, right[0] == 1)


def test_one_zone_away_the_guess_agrees_on_nearly_every_head():
    """The slopes are taken to one neighbor; elsewhere they are an approximation."""
    near = singles(OUZEL, OUZEL.delivered)
    right, _ = guess().verdicts(near)
    solved = np.array([trial().rest(Build(3, pads)).right for pads in near])
    assert np.mean(right == solved) > 0.93


def test_scores_rank_builds_much_as_their_shares_do():
    near = singles(OUZEL, OUZEL.delivered)
    shares = np.array([trial().rest(Build(3, pads)).right.mean() for pads in near])
    assert np.corrcoef(guess().scores(near), shares)[0, 1] > 0.85


def test_a_build_with_fewer_faults_scores_higher():
    _, faults = guess().verdicts([OUZEL.delivered, (0,) * 8])
    good, bad = guess().scores([OUZEL.delivered, (0,) * 8])
    assert faults[0].mean() < faults[1].mean()
    assert good > bad


def test_a_climb_never_leaves_what_the_sheet_allows_and_ends_no_lower_than_it_began():
    seen = climb(trial(), OUZEL.delivered, COUNT)
    assert all(is_allowed(OUZEL, pads) for pads in seen.scores)
    start = trial().rest(delivered()).right.mean()
    best = max(trial().rest(Build(3, pads)).right.mean() for pads in seen.top(14))
    assert best >= start


def test_a_climb_keeps_matched_zones_matched():
    matched = replace(trial(), sheet=MATCHED)
    seen = climb(matched, MATCHED.delivered, COUNT)
    assert len(seen.scores) > 30
    assert all(pads == even(pads) for pads in seen.scores)


def test_the_top_of_a_climb_is_in_order():
    seen = climb(trial(), OUZEL.delivered, COUNT)
    scores = [seen.scores[pads] for pads in seen.top(10)]
    assert scores == sorted(scores, reverse=True)
    assert scores[0] == max(seen.scores.values())


def without_choice_at_the_nape() -> ModelSheet:
    nape = OUZEL.pad(Zone.NAPE)
    one = replace(nape, labels=("1 in",), thicknesses_mm=(25.4,), delivered=0, part_numbers=())
    return replace(OUZEL, pads=tuple(one if pad is nape else pad for pad in OUZEL.pads))


def without_a_nape_pad() -> ModelSheet:
    nape, none = OUZEL.pad(Zone.NAPE), absent_pad(Zone.NAPE, CUSHION)
    return replace(OUZEL, pads=tuple(none if pad is nape else pad for pad in OUZEL.pads))


@pytest.mark.parametrize("sheet", [without_choice_at_the_nape(), without_a_nape_pad()])
def test_a_zone_with_one_pad_or_none_is_left_alone(sheet):
    unknowns = draw_unknowns(sheet, COUNT, np.random.default_rng(6))
    some = trial_of(men(COUNT), sheet=sheet, unknowns=unknowns)
    seen = climb(some, sheet.delivered, COUNT)
    assert {pads[5] for pads in seen.scores} == {0}
    assert np.all(np.isfinite(seen.response.stroke_slope))
    assert max(some.rest(Build(3, pads)).right.mean() for pads in seen.top(3)) > 0.0
