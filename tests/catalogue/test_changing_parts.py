"""The maker's own ways to change parts, on the sheet."""

from helmwright.catalogue import PartKind, load_packaged
from tests.catalogue.plain_sheet import PLAIN, complaints


def test_the_makers_way_to_change_a_part_is_found_by_its_kind():
    ouzel = load_packaged("ouzel")
    jaw = ouzel.change_instruction(PartKind.JAW)
    assert jaw is not None
    assert len(jaw.steps) == 2
    assert ouzel.change_instruction(PartKind.CROWN) is None


def test_steps_for_no_kind_of_part_or_twice_for_one_are_refused():
    steps = '\n[[changing]]\npart = "{}"\nsteps = ["Peel it off."]\n'
    (unknown,) = complaints(PLAIN + steps.format("jaw pads"))
    assert unknown.startswith(
        'line 165: changing 1, part: "jaw pads" is not one of the words for part '
        '(did you mean "jaw pad"?).'
    )
    (twice,) = complaints(PLAIN + 2 * steps.format("jaw pad"))
    assert twice == (
        'line 169: changing "jaw pad", part: another section tells how to change a jaw pad. '
        "Put all steps for it under one [[changing]]."
    )
    (empty,) = complaints(PLAIN + '\n[[changing]]\npart = "shell"\nsteps = []\n')
    assert "the list is empty" in empty
