"""Over any sequence of helmets a visit counts the pads and helmets that there truly are."""

from typing import NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.catalogue import ZONES
from helmwright.fit.outlook import Build
from helmwright.visit.at_hand import AtHand, at_hand
from helmwright.visit.event import Event, PutOn, Undone
from helmwright.visit.possible import UnlistedBuildError, refuse_impossible
from helmwright.visit.shelf import Row, Shelf
from helmwright.visit.state import OutOfTurnError, fold
from tests.visit.helmet_world import Helmet, World
from tests.visit.scripts import DELIVERED, OUZEL, begun, moved

LABELS = OUZEL.pads[1].labels
CHANGED = [ZONES.index(zone) for zone in ZONES if zone in ("front", "left", "right")]
PLACES = ("front", "left", "right", "sides")


@st.composite
def builds(draw: st.DrawFn, *shells: int) -> Build:
    """A build of some shells, delivered but for a few zones."""
    pads = list(OUZEL.delivered)
    for place in CHANGED:
        pads[place] = draw(st.integers(1, 3))
    return Build(draw(st.sampled_from(shells)), tuple(pads))


DRAWERS = st.dictionaries(
    st.tuples(st.sampled_from(PLACES), st.sampled_from(LABELS[1:4])), st.integers(0, 2), max_size=8
)
ASKED = st.lists(builds(3, 4, 5), min_size=1, max_size=6)


class Step(NamedTuple):
    """A build, in one of the helmets of its shell, and whether what lay in it is told anyway."""

    build: Build
    which: int
    is_told: bool


STEPS = st.lists(
    st.none() | st.builds(Step, builds(3, 4), st.integers(0, 3), st.booleans()),
    min_size=1,
    max_size=8,
)


def rows(drawers: dict[tuple[str, str], int], shells: tuple[int, ...] = ()) -> tuple[Row, ...]:
    counted = tuple((place, label, count) for (place, label), count in sorted(drawers.items()))
    return counted + tuple(("shell", str(number), 1) for number in shells)


def check(events: list[Event], world: World, asked: list[Build]) -> None:
    """What a visit counts is what there is, and what it allows can be made."""
    visit = fold(events)
    there = at_hand(visit, OUZEL)
    shelf = Shelf.of(OUZEL, visit.started.shelf).after(there)
    assert there.helmet == (None if world.at_hand is None else world.at_hand.build)
    counts = shelf.counts or {}
    loose = {part: count for part, count in counts.items() if count and part[0] != "shell"}
    assert loose == world.loose()
    counted = [
        Build(int(label), OUZEL.delivered)
        for (place, label), count in counts.items()
        for _ in range(count)
        if place == "shell"
    ]
    assert sorted([*there.others, *counted]) == world.others()
    for build in asked:
        allowed = shelf.allows(build, there.helmet, worn=bool(visit.try_ons))
        assert allowed == world.can_make(build)
        assert allowed == (shelf.lacking(build, there.helmet, worn=bool(visit.try_ons)) == ())


@settings(max_examples=150, deadline=None)
@given(
    st.lists(builds(3, 4, 5), min_size=2, max_size=6), DRAWERS, st.booleans(), STEPS, ASKED
)  # fmt: skip
def test_over_any_sequence_of_helmets_a_visit_counts_what_there_is(
    helmets, drawers, in_hand, steps, asked
):
    world = World(helmets, drawers, 0 if in_hand else None)
    told = tuple(helmets[1:] if in_hand else helmets)
    start = begun(current=helmets[0] if in_hand else None, helmets=told, shelf=rows(drawers))
    events: list[Event] = [start]
    before: list[World] = []
    for step in steps:
        if step is None:
            if before:
                world = before.pop()
                events.append(Undone())
        else:
            mine = [each for each in world.helmets if each.shell == step.build.shell]
            if mine:
                before.append(world.copy())
                chosen = mine[step.which % len(mine)]
                events.append(said(events, chosen, step))
                pads = world.pads()
                world.put_on(chosen, step.build)
                assert not pads - world.pads(), "nothing is lost"
        check(events, world, asked)


def said(events: list[Event], helmet: Helmet, step: Step) -> PutOn:
    """What is told of the helmet that is taken up: only what the visit does not think anyway."""
    thought = at_hand(fold(events), OUZEL).lies_for(step.build)
    lay = helmet.build if step.is_told or helmet.build != thought else None
    return PutOn(step.build, "so", lay)


@settings(max_examples=100, deadline=None)
@given(
    st.lists(st.sampled_from((3, 4, 5)), max_size=4),
    DRAWERS,
    st.booleans(),
    st.lists(builds(3, 4), min_size=1, max_size=6),
    ASKED,
)
def test_shells_that_are_counted_come_as_delivered_and_are_set_back_as_they_are(
    shells, drawers, in_hand, tried, asked
):
    plain = [Build(number, OUZEL.delivered) for number in shells]
    world = World([DELIVERED, *plain] if in_hand else plain, drawers, 0 if in_hand else None)
    used = [world.helmets[0]] if in_hand else []
    current = DELIVERED if in_hand else None
    events: list[Event] = [begun(current=current, shelf=rows(drawers, tuple(shells)))]
    for build in tried:
        helmet = next_to_hand(world, used, build.shell)
        world.put_on(helmet, build)
        used = [*(each for each in used if each is not helmet), helmet]
        events.append(PutOn(build, "so"))
        check(events, world, asked)


def next_to_hand(world: World, used: list[Helmet], shell: int) -> Helmet:
    """The one used last, one that nobody used, or one that somebody brings."""
    mine = [each for each in used if each.shell == shell]
    fresh = [each for each in world.helmets if each.shell == shell and each not in used]
    if not mine and not fresh:
        world.helmets.append(Helmet(Build(shell, OUZEL.delivered)))
        return world.helmets[-1]
    return mine[-1] if mine else fresh[0]


def test_a_helmet_of_the_same_shell_and_pads_makes_no_difference_told_or_not():
    start = begun(current=DELIVERED, helmets=(DELIVERED,), shelf=())
    other = PutOn(moved(front=1), "so")
    told = PutOn(moved(front=1), "so", DELIVERED)
    one, two = (at_hand(fold([start, event]), OUZEL) for event in (other, told))
    assert one == two
    assert one.others == (DELIVERED,)


def test_where_nobody_says_which_helmet_it_is_the_one_with_the_fewest_changes_is_thought_of():
    near, far = Build(4, moved(front=1).pads), Build(4, moved(front=1, rear=1, nape=1).pads)
    there = AtHand(OUZEL.delivered, DELIVERED, (near, far))
    assert there.lies_for(Build(4, moved(front=2).pads)) == near
    assert there.lies_for(Build(4, moved(rear=1, nape=1).pads)) == far
    assert there.lies_for(Build(5, OUZEL.delivered)) == Build(5, OUZEL.delivered)
    assert there.lies_for(moved(front=1)) == DELIVERED
    back = there.put_on(far, far).put_on(DELIVERED)
    assert back.helmet == DELIVERED
    assert back.lies_for(near) == far, "it was set back last"
    assert sorted(back.others) == [near, far]
    both = there.put_on(far, far).put_on(near, near).put_on(DELIVERED)
    assert both.lies_for(far) == near, "of two, it is the one that was set back last"


def test_what_lay_in_the_helmet_that_was_taken_up_is_what_was_in_it_before():
    told = Build(4, moved(front=1).pads)
    put_on = PutOn(Build(4, OUZEL.delivered), "so", told)
    (tried,) = fold([begun(current=DELIVERED), put_on]).try_ons
    assert tried.before == tried.lay == told


def test_a_shell_does_not_change_under_its_pads():
    with pytest.raises(OutOfTurnError, match="of another shell"):
        fold([begun(), PutOn(DELIVERED, "so", Build(4, OUZEL.delivered))])


@pytest.mark.parametrize(
    "events",
    [
        [begun(helmets=(Build(9, OUZEL.delivered),))],
        [begun(), PutOn(DELIVERED, "so", Build(3, (9,) * len(ZONES)))],
    ],
)
def test_a_helmet_that_the_sheet_does_not_have_is_refused(events):
    with pytest.raises(UnlistedBuildError, match="is no build of"):
        refuse_impossible(fold(events), OUZEL, ())
