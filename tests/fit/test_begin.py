"""Where a search begins in a shell, so that it finds what is at hand there."""

from helmwright.catalogue import load_packaged
from helmwright.fit.begin import MORE, begins
from helmwright.fit.neighborhood import Pads, everything
from helmwright.fit.outlook import Build

OUZEL = load_packaged("ouzel")
THIN = (0,) * 8
THICK = (4,) * 8


def among(*builds: Pads):
    return lambda pads: pads in builds


def test_it_begins_at_what_is_in_the_helmet_where_that_is_at_hand():
    assert begins(OUZEL, THIN, (), 3, everything) == [THIN]


def test_it_begins_at_what_lies_in_a_helmet_of_the_shell_however_far_that_is():
    lies = (Build(4, THIN), Build(3, THICK))
    assert begins(OUZEL, THIN, lies, 3, among(THICK)) == [THICK]


def test_it_begins_at_what_the_shell_comes_with_where_nobody_told_of_one():
    assert begins(OUZEL, THIN, (), 3, among(OUZEL.delivered)) == [OUZEL.delivered]


def test_where_nothing_of_a_shell_is_at_hand_it_does_not_begin():
    assert begins(OUZEL, THIN, (Build(3, THICK),), 3, among()) == []


def test_further_helmets_of_the_shell_are_begun_at_as_well_a_few_and_each_once():
    pads = [(each, *OUZEL.delivered[1:]) for each in range(5)]
    lies = [Build(3, each) for each in pads] * 2 + [Build(4, THICK)]
    found = begins(OUZEL, THIN, lies, 3, among(*pads, THICK))
    assert len(found) == 1 + MORE
    assert len(set(found)) == len(found)
    assert set(found) <= set(pads)
