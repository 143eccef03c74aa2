"""What can be made up from the parts of a store."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import ZONES, Zone, load_packaged, packaged_models
from helmwright.catalogue.pools import POOLS
from helmwright.fit.outlook import Build
from helmwright.roster import read_stock, stock_template
from helmwright.visit.shelf import Shelf, ShelfError
from tests.visit.scripts import DELIVERED, OUZEL, moved


def label(zone: Zone, step: int = 0) -> str:
    return OUZEL.pad(zone).labels[OUZEL.pad(zone).delivered + step]


def shelf(*rows: tuple[str, str, int]) -> Shelf:
    return Shelf.of(OUZEL, rows)


def test_without_a_stock_everything_listed_is_there():
    everything = Shelf.of(OUZEL, None)
    assert everything.allows(Build(1, (0,) * 8), None)
    assert everything.lacking(moved(front=1)) == ()


def test_the_helmet_at_hand_needs_nothing():
    assert shelf().allows(DELIVERED, DELIVERED)


def test_a_pad_that_is_not_counted_is_not_there():
    assert shelf().lacking(moved(front=1), DELIVERED) == (f"front {label(Zone.FRONT, 1)}",)
    one = shelf(("front", label(Zone.FRONT, 1), 1))
    assert one.allows(moved(front=1), DELIVERED)
    assert not shelf(("front", label(Zone.FRONT, 1), 0)).allows(moved(front=1), DELIVERED)


def test_pads_for_the_sides_go_to_either_side_but_only_as_many_as_there_are():
    one = shelf(("sides", label(Zone.LEFT, 1), 1))
    assert one.allows(moved(left=1), DELIVERED)
    assert one.allows(moved(right=1), DELIVERED)
    assert len(one.lacking(moved(left=1, right=1), DELIVERED)) == 1
    assert shelf(("sides", label(Zone.LEFT, 1), 2)).allows(moved(left=1, right=1), DELIVERED)


def test_a_pad_of_its_own_zone_is_taken_before_one_for_either():
    both = shelf(("sides", label(Zone.LEFT, 1), 1), ("left", label(Zone.LEFT, 1), 1))
    assert both.allows(moved(left=1, right=1), DELIVERED)


def test_a_missing_part_is_nowhere_to_be_had_whatever_was_counted():
    part = ("front", label(Zone.FRONT, 1))
    for here in (shelf((*part, 3)), Shelf.of(OUZEL, None)):
        assert here.allows(moved(front=1), DELIVERED)
        assert here.without([part]).lacking(moved(front=1), DELIVERED) == (" ".join(part),)
        assert here.without([part]).allows(DELIVERED, DELIVERED)


def test_a_missing_part_is_not_looked_for_in_a_shell_from_the_shelf():
    other, part = Build(4, OUZEL.delivered), ("front", label(Zone.FRONT))
    here = shelf(("shell", "4", 1))
    assert here.allows(other, DELIVERED)
    assert not here.without([part]).allows(other, DELIVERED)


def test_a_part_for_either_side_that_is_missing_is_missing_on_both():
    one = shelf(("sides", label(Zone.LEFT, 1), 2)).without([("left", label(Zone.LEFT, 1))])
    assert not one.allows(moved(left=1), DELIVERED)
    assert not one.allows(moved(right=1), DELIVERED)


def test_either_word_for_the_jaw_counts_the_same_pads():
    rows = (("jaw", label(Zone.JAW_LEFT, 1), 1), ("jaws", label(Zone.JAW_LEFT, 1), 1))
    assert shelf(*rows).allows(moved(jaw_left=1, jaw_right=1), DELIVERED)


def test_a_shell_from_the_shelf_brings_the_pads_that_it_arrives_with():
    other = Build(4, OUZEL.delivered)
    assert shelf().lacking(other, DELIVERED) == ("shell 4",)
    assert shelf(("shell", "4", 1)).allows(other, DELIVERED)
    assert shelf(("shell", "4", 1)).allows(other, None)


def test_without_a_helmet_at_hand_its_shell_must_be_on_the_shelf():
    assert shelf().lacking(DELIVERED, None) == ("shell 3",)


def test_pads_of_the_helmet_at_hand_stay_in_it_where_another_shell_is_taken():
    there, front = moved(front=1), f"front {label(Zone.FRONT, 1)}"
    assert shelf(("shell", "4", 1)).lacking(Build(4, there.pads), there) == (front,)
    assert shelf(("shell", "4", 1)).allows(Build(4, OUZEL.delivered), there)


def test_what_lies_in_one_further_helmet_makes_up_a_build_and_what_lies_in_two_does_not():
    one, two = Build(4, moved(front=1).pads), Build(4, moved(rear=1).pads)
    here = replace(shelf(), helmets=(one, two, Build(5, moved(front=1, rear=1).pads)))
    assert here.allows(one, DELIVERED)
    assert here.allows(two, DELIVERED)
    both = Build(4, moved(front=1, rear=1).pads)
    assert len(here.lacking(both, DELIVERED)) == 1
    assert here.lacking(Build(4, moved(front=2, rear=1).pads)) == (
        f"front {label(Zone.FRONT, 2)}",
    ), "of the helmet that lacks least"


def test_a_pad_said_not_to_be_here_is_not_moved_from_the_other_side_either():
    part = ("left", label(Zone.LEFT, 1))
    here = shelf(("sides", part[1], 2), ("sides", label(Zone.LEFT), 2)).without([part])
    worn = moved(right=1)
    assert here.allows(worn, worn, worn=True)
    assert not here.allows(moved(left=1), worn, worn=True)
    assert not here.allows(moved(right=1), DELIVERED, worn=True)


def test_everything_that_is_lacking_is_named():
    thick = Build(4, tuple(pad + 1 for pad in OUZEL.delivered))
    named = shelf().lacking(thick, DELIVERED)
    assert named[0] == "shell 4"
    assert len(named) == 1 + len(ZONES)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        (("visor", "1", 1), "stock row 1: 'visor' is no place; places are shell, crown"),
        (("front", "17", 1), "has no front pad '17'; it has 5/8"),
        (("shell", "9", 1), "has no shell '9'; it has shell 1, shell 2"),
        (("shell", "", 1), "has no shell ''"),
        (("front", "7/8", -1), "a count of -1 must be 0 or more"),
    ],
)
def test_a_row_that_names_no_part_is_refused(row, says):
    with pytest.raises(ShelfError, match=says):
        shelf(row)


@given(
    st.lists(st.tuples(st.sampled_from(["sides", "left", "right", "front", "jaw", "jaw left"]),
                       st.integers(0, 4), st.integers(0, 2)), max_size=8),
    st.tuples(*(st.integers(0, 4) for _ in ZONES)),
    st.sampled_from([None, DELIVERED, Build(3, (1, 1, 1, 1, 1, 1, 1, 1))]),
)  # fmt: skip
def test_a_build_is_allowed_just_where_nothing_of_it_is_lacking(rows, pads, helmet):
    named = {"sides": Zone.LEFT, "jaw": Zone.JAW_LEFT}
    counted = [
        (place, OUZEL.pad(named.get(place, Zone(named.get(place, place)))).labels[pad], count)
        for place, pad, count in rows
    ]
    one = Shelf.of(OUZEL, [*counted, ("shell", "4", 1)])
    for shell in (3, 4, 5):
        build = Build(shell, pads)
        assert one.allows(build, helmet) == (one.lacking(build, helmet) == ())


@pytest.mark.parametrize("name", packaged_models())
def test_a_shelf_takes_whatever_a_stock_list_gives(name: str):
    sheet = load_packaged(name)
    text = stock_template(sheet).replace(",\n", ",1\n")
    pooled = "sides" if sheet.pad(Zone.LEFT).cell is None else "jaw"
    first = POOLS[pooled][0]
    stock = read_stock(f"{text}{pooled},{sheet.pad(first).labels[0]},2\n".encode(), sheet)
    shelf = Shelf.of(sheet, stock.rows)
    for shell in sheet.shells:
        thinnest = Build(shell.number, (0,) * len(sheet.pads))
        assert shelf.lacking(thinnest) == ()
