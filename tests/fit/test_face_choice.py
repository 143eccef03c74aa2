"""What the sheet does not allow is refused, with the reason."""

from dataclasses import replace

import numpy as np
import pytest

from helmwright.catalogue import Exclusion, Position
from helmwright.fit.face import face_outlook
from helmwright.fit.face_choice import FaceWish, choose_face
from tests.fit.ordinary import OUZEL, delivered, men, trial_of

HEADS = men(40)
OPEN, CLOSED, HALF = (guard.name for guard in OUZEL.face_guards)
SOFT, HARD = (strap.name for strap in OUZEL.chin_straps)


def outlook_of(sheet, shell):
    trial = trial_of(HEADS, shell=shell, sheet=sheet)
    return face_outlook(trial, HEADS, delivered(shell, sheet), rng=np.random.default_rng(1))


SMALLEST = 1
OUTLOOKS = {shell: outlook_of(OUZEL, shell) for shell in (SMALLEST, 3)}


def chosen(sheet=OUZEL, *, shell=3, outlook=None, **wish):
    return choose_face(sheet, outlook or OUTLOOKS[shell], FaceWish(**wish))


def names(choice):
    return [each.guard.guard.name for each in choice.allowed]


def reasons(choice):
    return {each.guard: each.why for each in choice.refused}


def test_without_a_word_every_guard_of_the_shell_is_allowed():
    assert sorted(names(chosen())) == sorted([OPEN, CLOSED, HALF])
    assert chosen().refused == ()


def test_a_guard_that_is_not_listed_for_the_shell_is_refused_by_its_shells():
    why = reasons(chosen(shell=SMALLEST))[HALF]
    assert why == "the sheet lists it for shell 2, 3, 4, 5, 6, not for shell 1"


def test_glasses_rule_out_what_the_sheet_rules_out():
    choice = chosen(glasses=True)
    assert CLOSED not in names(choice)
    assert reasons(choice) == {CLOSED: "the sheet says that glasses cannot be worn under it"}
    assert CLOSED in names(chosen(glasses=False))


@pytest.mark.parametrize(
    ("positions", "guards"),
    [
        ((Position.QUARTERBACK,), [OPEN]),
        ((Position.OFFENSIVE_LINE,), [CLOSED]),
        ((Position.LINEBACKER, Position.RECEIVER), [OPEN, HALF]),
        ((Position.KICKER,), [OPEN]),
    ],
)
def test_a_guard_must_be_made_for_one_of_the_positions(positions, guards):
    assert sorted(names(chosen(positions=positions))) == sorted(guards)


def test_a_guard_for_nobody_in_particular_is_for_everybody():
    free = tuple(replace(guard, positions=()) for guard in OUZEL.face_guards)
    sheet = replace(OUZEL, face_guards=free)
    choice = chosen(sheet, outlook=outlook_of(sheet, 3), positions=(Position.KICKER,))
    assert len(choice.allowed) == 3


def test_where_only_the_position_speaks_against_it_that_is_told_apart():
    choice = chosen(positions=(Position.OFFENSIVE_LINE,), glasses=True)
    assert names(choice) == []
    told = {each.guard: each.by_position for each in choice.refused}
    assert told == {OPEN: True, CLOSED: False, HALF: True}


def test_a_strap_that_the_sheet_excludes_does_not_go_with_the_guard():
    sets = {each.guard.guard.name: each.strap.strap.name for each in chosen().allowed}
    assert sets[CLOSED] == HARD


def test_a_guard_that_no_strap_may_go_with_is_refused_by_the_makers_reason():
    both = tuple(Exclusion((OPEN, strap), "An example.") for strap in (SOFT, HARD))
    choice = chosen(replace(OUZEL, exclusions=both))
    assert reasons(choice)[OPEN] == "no strap for shell 3 may go with it: An example."


def test_an_exclusion_that_needs_a_third_part_forbids_no_pair():
    three = (Exclusion((OPEN, SOFT, "side clip"), "An example."),)
    assert OPEN in names(chosen(replace(OUZEL, exclusions=three)))


def test_the_players_own_choice_comes_first_where_it_is_allowed():
    for guard in (OPEN, CLOSED, HALF):
        choice = chosen(guard=guard.upper())
        assert names(choice)[0] == guard
        assert choice.wish_refused is None


def test_the_players_own_choice_is_refused_with_its_reason_first():
    choice = chosen(guard=CLOSED, positions=(Position.QUARTERBACK,))
    assert choice.wish_refused is choice.refused[0]
    assert choice.wish_refused.why == (
        "the sheet makes it for offensive line, defensive line; not for quarterback"
    )


def test_a_guard_that_is_not_on_the_sheet_is_refused_with_those_that_are():
    refused = chosen(guard="cage").wish_refused
    assert refused is not None
    assert refused.why == (
        f"the sheet of {OUZEL.model} lists no such guard; it lists: {OPEN}; {CLOSED}; {HALF}"
    )


def test_sight_goes_before_the_nose_and_the_nose_before_the_mass():
    seen = OUTLOOKS[3]
    good = {"sight": 0.9, "nose_right": 0.9}
    first, second, third = seen.guards

    def ranked(*guards):
        return names(chosen(outlook=replace(seen, guards=guards)))

    blind = replace(first, **(good | {"sight": 0.5}))
    far = replace(second, **(good | {"nose_right": 0.5}))
    right = replace(third, **good)
    assert ranked(blind, far, right) == [HALF, CLOSED, OPEN]
    alike = [replace(each, **good) for each in seen.guards]
    assert ranked(*alike) == [OPEN, HALF, CLOSED]


@pytest.mark.parametrize("asked", ["closed four bars", "Closed - Four bars", "CLOSED,FOUR BARS"])
def test_a_name_needs_no_comma_to_be_known(asked):
    choice = chosen(guard=asked)
    assert names(choice)[0] == CLOSED
    assert choice.wish_refused is None


def test_a_slip_of_the_pen_is_asked_about():
    refused = chosen(guard="closd, four bars").wish_refused
    assert refused is not None
    assert refused.why.endswith(f'Did you mean "{CLOSED}"?')
