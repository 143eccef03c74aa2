"""What to do at the moment of a change."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import ZONES, PartKind, Zone, load_packaged
from helmwright.catalogue.changing import ChangeInstruction
from helmwright.fit.outlook import Build
from helmwright.sources import Standing
from helmwright.visit.changing import PARTS, changing_steps, how_to_change, on_the_spot, usual_steps
from helmwright.visit.check import Part
from helmwright.visit.protocol import MAKER, protocol_for

OUZEL = load_packaged("ouzel")
REDSTART = load_packaged("redstart")
SISKIN = load_packaged("siskin")
DELIVERED = Build(3, OUZEL.delivered)
BUILDS = st.builds(
    Build,
    st.sampled_from([shell.number for shell in OUZEL.shells]),
    st.tuples(*(st.integers(0, len(pad.labels) - 1) for pad in OUZEL.pads)),
)
LONGEST_SENTENCE = 20


def moved(build: Build, **zones: int) -> Build:
    pads = list(build.pads)
    for name, index in zones.items():
        pads[ZONES.index(Zone(name.replace("_", " ")))] = index
    return Build(build.shell, tuple(pads))


def test_every_kind_of_part_has_its_steps_and_every_step_says_where_it_comes_from():
    assert set(usual_steps()) == set(PartKind) == set(PARTS)
    allowed = {Standing.COMMON_PRACTICE.value, Standing.FROM_MEMORY.value}
    for steps in usual_steps().values():
        assert len(steps) >= 4
        assert {step.source for step in steps} <= allowed


@pytest.mark.parametrize("kind", PartKind)
def test_the_steps_are_short_enough_to_be_read_with_a_pad_in_the_hand(kind):
    for step in usual_steps()[kind]:
        sentences = [each for each in step.says.split(".") if each]
        assert max(len(each.split()) for each in sentences) <= LONGEST_SENTENCE
        assert step.says.endswith(".")
        assert len(step.says) <= 120


@pytest.mark.parametrize("kind", [PartKind.CROWN, PartKind.RING, PartKind.NAPE, PartKind.JAW])
def test_a_pad_goes_in_the_right_way_round_on_its_side_home_at_its_edges_and_on_again(kind):
    told = " ".join(step.says for step in usual_steps()[kind]).lower()
    assert "end" in told or "edge is up" in told
    assert "until it is home" in told
    assert "edge" in told
    assert "helmet on again" in told
    assert "from the maker of this model" in told


def test_left_and_right_are_said_to_be_the_wearers_where_there_are_two_sides():
    for kind in (PartKind.RING, PartKind.JAW):
        assert "the wearer's" in usual_steps()[kind][0].says


def test_the_guards_nuts_are_looked_at_and_its_screws_are_tight_and_not_over_tight():
    told = " ".join(step.says for step in usual_steps()[PartKind.GUARD])
    assert "nut sits in its place behind the screw" in told
    assert "tight, but not over-tight" in told


def test_nothing_to_change_is_nothing_to_do():
    assert changing_steps(OUZEL, DELIVERED, DELIVERED) == ()


def test_changed_pads_are_told_by_kind_with_what_stands_on_their_bags():
    after = moved(DELIVERED, front=3, left=1, jaw_right=5)
    ring, jaw = changing_steps(OUZEL, DELIVERED, after)
    assert ring.kind is PartKind.RING
    assert [(each.zone, each.out, each.into) for each in ring.swaps] == [
        (Zone.FRONT, "7/8 in", "1 in"),
        (Zone.LEFT, "7/8 in", "3/4 in"),
    ]
    assert ring.swaps[0].part_number == "OZ-F-08"
    assert jaw.kind is PartKind.JAW
    assert jaw.swaps[0].into == "1 1/8 in"


@given(BUILDS, BUILDS)
def test_the_swaps_make_the_new_build_of_what_is_in_the_shell(before, after):
    changes = changing_steps(OUZEL, before, after)
    start = before if before.shell == after.shell else Build(after.shell, OUZEL.delivered)
    pads = list(start.pads)
    for swap in (swap for change in changes for swap in change.swaps):
        labels = OUZEL.pad(swap.zone).labels
        place = ZONES.index(swap.zone)
        assert labels[pads[place]] == swap.out
        pads[place] = labels.index(swap.into)
    assert tuple(pads) == after.pads
    shells = [change.shell for change in changes if change.kind is PartKind.SHELL]
    assert shells == ([after.shell] if after.shell != before.shell else [])
    assert all(change.swaps for change in changes if change.kind is not PartKind.SHELL)


def test_every_change_names_the_checks_to_ask_again():
    after = moved(DELIVERED, crown=3)
    (crown,) = changing_steps(OUZEL, DELIVERED, after)
    assert crown.again == protocol_for(OUZEL).repeated_after([Part.CROWN])
    assert {"brow", "crown"} <= {check.key for check in crown.again}


def test_air_is_filled_anew_after_any_change_and_only_where_there_are_cells():
    start = Build(3, REDSTART.delivered)
    crown, air = changing_steps(REDSTART, start, moved(start, crown=0))
    assert (crown.kind, air.kind) == (PartKind.CROWN, PartKind.AIR)
    assert air.swaps == ()


def test_the_makers_steps_go_before_the_usual_ones_and_are_marked():
    after = moved(DELIVERED, jaw_left=1, crown=1)
    crown, jaw = changing_steps(OUZEL, DELIVERED, after)
    assert not crown.by_maker
    assert jaw.by_maker
    assert [step.says for step in jaw.steps] == list(OUZEL.changing[0].steps)
    assert {step.source for step in jaw.steps} == {MAKER}


def test_guard_and_strap_have_steps_too():
    steps, by_maker = how_to_change(OUZEL, PartKind.GUARD)
    assert by_maker
    assert "Invented example" in steps[0].says
    assert how_to_change(SISKIN, PartKind.GUARD) == (usual_steps()[PartKind.GUARD], False)
    assert how_to_change(OUZEL, PartKind.STRAP)[1] is False


def test_a_sheet_may_tell_how_to_change_any_kind_of_part():
    for kind in PartKind:
        sheet = replace(SISKIN, changing=(ChangeInstruction(kind, ("So.",)),))
        steps, by_maker = how_to_change(sheet, kind)
        assert by_maker
        assert [step.says for step in steps] == ["So."]


def test_a_shell_that_the_sheet_does_not_have_is_refused():
    with pytest.raises(KeyError, match="shell 9"):
        changing_steps(OUZEL, DELIVERED, Build(9, OUZEL.delivered))


def test_what_is_put_right_on_the_spot_names_the_part_that_it_may_change():
    usual = protocol_for(OUZEL)
    found = {
        check.key: [change.kind for change in on_the_spot(OUZEL, check, usual)]
        for check in usual.checks
        if check.changes
    }
    guard, strap = [PartKind.GUARD], [PartKind.STRAP]
    assert found == {
        "parts": [*strap, *guard], "guard on": guard, "cup": strap, "nose": guard, "sight": guard,
    }  # fmt: skip
    (nose,) = on_the_spot(OUZEL, usual.check("nose"), usual)
    assert {"brow", "turn", "sight"} <= {check.key for check in nose.again}
    assert nose.by_maker
    assert not nose.swaps


def test_a_zone_with_an_air_cell_is_put_right_with_air():
    with_air = protocol_for(REDSTART)
    cells = [pad.zone for pad in REDSTART.pads if pad.cell is not None]
    mine = [with_air.check(str(zone)) for zone in cells]
    assert mine
    for check in mine:
        (air,) = on_the_spot(REDSTART, check, with_air)
        assert air.kind is PartKind.AIR
