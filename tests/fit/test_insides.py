"""Insides that nobody measured: what their errors do to a rest, and to what is answered."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.anatomy import Reading, Sex, estimate_head
from helmwright.belief import exactly
from helmwright.catalogue import (
    INSIDE_NUMBERS,
    ZONES,
    ModelSheet,
    Shell,
    load_packaged,
    packaged_text,
    parse_sheet,
)
from helmwright.catalogue.insides import quantity
from helmwright.catalogue.usual import ADULT_HEAD, YOUTH_HEAD
from helmwright.fit import Effort, Proposal, propose
from helmwright.fit.insides import CALIPERED, CORNERS, draw_insides, in_shell
from helmwright.fit.seating import pad_laws
from tests.catalogue.test_insides import bared
from tests.fit.ordinary import LAWS, OUZEL, delivered, men, nothing_unknown, trial_of

QUICK = Effort(climb=64, near=192, race=192, fresh=600, entrants=8)
GUESSED = parse_sheet(bared(packaged_text("ouzel")), name="bared")
FIVE = {
    "tape_circumference": 570.0, "head_length": 199.0, "head_breadth": 154.0,
    "brow_to_top": 101.0, "jaw_pad_width": 132.0,
}  # fmt: skip


@cache
def proposed(sheet: ModelSheet) -> Proposal:
    head = estimate_head([Reading(key, value) for key, value in FIVE.items()], sex=Sex.MALE)
    return propose(head, sheet, rng=np.random.default_rng(1), effort=QUICK)


def larger(shell: Shell, number: str, by: float) -> Shell:
    field = f"{number}_mm"
    return replace(shell, **{field: getattr(shell, field) + by})


@pytest.mark.parametrize("number", INSIDE_NUMBERS)
@pytest.mark.parametrize("by", [-4.0, 4.0])
def test_an_error_told_as_a_stand_off_does_what_another_shell_does(number, by):
    """Independent computation: the shell is built anew with the other number."""
    heads = men(60)
    error = np.zeros((len(heads), len(INSIDE_NUMBERS)))
    error[:, INSIDE_NUMBERS.index(number)] = by
    told = trial_of(heads, unknowns=in_shell(nothing_unknown(len(heads)), error))
    shells = tuple(
        larger(shell, number, by) if shell.number == 3 else shell for shell in OUZEL.shells
    )
    built = trial_of(heads, sheet=replace(OUZEL, shells=shells), laws=LAWS)
    plain = trial_of(heads).rest(delivered())
    one, other = told.rest(delivered()), built.rest(delivered())
    moved = other.zone_stroke_mm - plain.zone_stroke_mm
    missed = one.zone_stroke_mm - other.zone_stroke_mm
    assert np.abs(moved).max() > 0.8
    assert np.abs(missed.mean(axis=0)).max() < 0.67
    assert abs(one.brow_mm.mean() - other.brow_mm.mean()) < 1.3


def test_no_error_leaves_the_unknowns_as_they_are():
    known = nothing_unknown(5)
    assert in_shell(known, None) is known
    same = in_shell(known, np.zeros((5, 5)))
    np.testing.assert_array_equal(same.zone_mm, known.zone_mm)
    np.testing.assert_array_equal(same.brow_mm, known.brow_mm)


def test_taking_an_error_back_gives_the_unknowns_again():
    known, error = nothing_unknown(50), np.random.default_rng(1).normal(size=(50, 5))
    back = in_shell(in_shell(known, error), -error)
    np.testing.assert_allclose(back.zone_mm, known.zone_mm, atol=1e-12)
    np.testing.assert_allclose(back.brow_mm, known.brow_mm, atol=1e-12)


def test_a_measured_sheet_draws_nothing_so_that_its_answers_stay_as_they_were():
    rng = np.random.default_rng(1)
    before = rng.bit_generator.state
    assert draw_insides(OUZEL, 100, rng) == {}
    assert rng.bit_generator.state == before


def test_an_unmeasured_shell_is_marked_and_told_what_calipers_would_add():
    told = proposed(GUESSED)
    assert not told.insides_known
    assert told.inside_gain is not None
    assert told.inside_gain.numbers == CALIPERED
    assert told.inside_gain.gain > 2.0 * told.inside_gain.error


def test_a_measured_shell_is_not_marked():
    told = proposed(OUZEL)
    assert told.insides_known
    assert told.inside_gain is None


def test_a_guess_lowers_the_chance_and_calipers_give_part_of_it_back():
    name = GUESSED.shells[2].number
    assert GUESSED.insides is not None
    seen = [
        exactly(quantity(name, number), getattr(GUESSED.shell(name), f"{number}_mm"), 1.0)
        for number in CALIPERED
    ]
    taken = replace(GUESSED, insides=GUESSED.insides.given(seen))
    guess, known, full = (proposed(sheet).ranked[0].fits.value for sheet in (GUESSED, taken, OUZEL))
    assert guess + 0.05 < known < full


def test_a_low_chance_on_a_guessed_inside_is_not_held_against_the_model():
    assert replace(proposed(GUESSED), within_reach=0.0).suits
    assert not replace(proposed(OUZEL), within_reach=0.0).suits


def test_the_readings_that_calipers_may_give_have_the_spread_of_the_belief():
    np.testing.assert_allclose(CORNERS.mean(axis=0), 0.0)
    np.testing.assert_allclose(CORNERS.T @ CORNERS / len(CORNERS), np.eye(3))


@pytest.mark.parametrize(
    ("head", "ages", "tapes"),
    [(ADULT_HEAD, None, (530.0, 570.0, 620.0)), (YOUTH_HEAD, (8.0, 14.0), (505.0, 530.0, 570.0))],
)
def test_the_middle_head_of_the_catalogue_is_the_mean_head_of_the_prior(head, ages, tapes):
    """The catalogue cannot see the prior; here its lines are held against it."""
    for tape in tapes:
        mean = estimate_head([Reading("tape_circumference", tape)], ages=ages)
        middle = head.at(mean.mean_of("tape_circumference"))
        brow = mean.mean_of("tragion_to_top") - mean.mean_of("brow_to_top")
        assert middle.length_mm == pytest.approx(mean.mean_of("head_length"), abs=1.5)
        assert middle.breadth_mm == pytest.approx(mean.mean_of("head_breadth"), abs=1.5)
        assert middle.top_mm == pytest.approx(mean.mean_of("tragion_to_top"), abs=1.5)
        assert middle.jaw_mm == pytest.approx(mean.mean_of("jaw_pad_width"), abs=2.0)
        assert middle.brow_mm == pytest.approx(brow, abs=1.0)


def test_the_usual_insides_are_as_often_loose_as_tight_on_the_heads_of_their_band():
    siskin = load_packaged("siskin")
    heads = men(300, low=572.0, high=597.0)
    trial = trial_of(
        heads, shell=3, sheet=siskin, laws=pad_laws(siskin),
                     unknowns=nothing_unknown(len(heads)))  # fmt: skip
    rest = trial.rest(delivered(3, siskin))
    assert abs(rest.brow_mm.mean() - 25.4) < 3.0
    for place, zone in enumerate(ZONES[1:], start=1):
        pressure = rest.zone_pressure_kpa[:, place]
        assert abs((pressure < 0.7).mean() - (pressure > 6.0).mean()) < 0.30, zone
