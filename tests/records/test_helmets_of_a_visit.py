"""A visit that takes one helmet after another: what the guide counts is what the records hold."""

from typing import Any
from uuid import UUID

import pytest
from django.db import transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from helmwright.fit.outlook import Build
from helmwright.records.kinds.things import PartsChanged
from helmwright.records.kinds.visits import PartReserved
from helmwright.records.models import Helmet, HelmetBuild, Reservation, Shelf, Visit
from helmwright.records.readers.station_visit import Here, helmets_for
from helmwright.records.readers.visit_events import events_of
from helmwright.records.verify import verify
from helmwright.visit import fold
from helmwright.visit.at_hand import AtHand, at_hand
from helmwright.visit.event import Started
from helmwright.visit.shelf import Shelf as VisitShelf
from helmwright.visit.wire import event_from_wire
from helmwright.visit.wire_build import build_from_form, build_to_wire
from helmwright.visit.wire_form import BuildForm
from tests.records.fitting import Fitting, answered, build, pads_in, proposed, put_on
from tests.records.room import SHEET, Room

pytestmark = pytest.mark.django_db
FRONT = SHEET.pad("front").labels  # type: ignore[arg-type]
SIDES = SHEET.pad("left").labels  # type: ignore[arg-type]
DELIVERED = {str(kind.zone): kind.labels[kind.delivered] for kind in SHEET.pads}


@pytest.fixture
def room():
    return Room()


def told(fitting: Fitting) -> tuple[AtHand, VisitShelf]:
    """The helmets and the shelf as the guide has them."""
    events = [event_from_wire(wire, SHEET) for wire in events_of(fitting.row)]
    visit = fold(events)
    there = at_hand(visit, SHEET)
    shelf = VisitShelf.of(SHEET, visit.started.shelf).after(there)
    return there, shelf.without(visit.missing)


def lies(helmet: UUID) -> Build:
    """What lies in a helmet, as a build."""
    pads = {zone: {"pad": label} for zone, label in pads_in(helmet).items()}
    form = BuildForm.model_validate({"shell": Helmet.objects.get(id=helmet).shell, "pads": pads})
    return build_from_form(form, SHEET, "helmet")


def check_agreed(fitting: Fitting, helmets: list[UUID], hand: UUID | None) -> None:
    """The guide counts what the records hold: loose pads, the helmet at hand, and the others."""
    there, shelf = told(fitting)
    held = Shelf.objects.values_list("part__place", "part__size", "on_hand")
    on_hand = {(place, size): count for place, size, count in held}
    assert {part: count for part, count in (shelf.counts or {}).items() if count} == {
        part: count for part, count in on_hand.items() if count
    }
    assert min(on_hand.values(), default=0) >= 0
    assert there.helmet == (None if hand is None else lies(hand))
    assert sorted(there.others) == sorted(lies(each) for each in helmets if each != hand)


def step(fitting: Fitting) -> dict[str, Any]:
    """The last event as the visit keeps it."""
    return events_of(fitting.row)[-1]


def test_another_shells_helmet_that_is_not_as_delivered_is_changed_undone_and_accepted(room):
    one = room.helmet("TV-1", shell=3)
    two = room.helmet("TV-2", shell=4, pads={"front": FRONT[0], "left": SIDES[1]})
    room.helmet("TV-3", shell=4, interval_months=1)
    room.received("front", FRONT[1], 1)
    room.received("sides", SIDES[0], 1)
    both, first = [one, two], lies(two)
    fitting = Fitting(room, helmet=one)
    check_agreed(fitting, both, one)
    fitting.program(proposed(front=FRONT[1]))
    fitting.taken(put_on(front=FRONT[1]))
    check_agreed(fitting, both, one)
    assert "lay" not in step(fitting)
    fitting.taken(answered("front", "loose"))
    there, shelf = told(fitting)
    assert not shelf.allows(Build(4, lies(one).pads), there.helmet, worn=True)
    fitting.program(proposed(4, front=FRONT[0], left=SIDES[0]))
    fitting.reserve(two)
    fitting.taken(put_on(4, front=FRONT[0], left=SIDES[0]))
    check_agreed(fitting, both, two)
    assert (room.on_hand("sides", SIDES[1]), room.on_hand("sides", SIDES[0])) == (1, 0)
    fitting.taken({"event": "undone"})
    assert lies(two) == first
    check_agreed(fitting, both, one)
    fitting.taken(put_on(4, front=FRONT[0], left=SIDES[1]))
    check_agreed(fitting, both, two)
    fitting.taken(answered("front", "snug"))
    worn = build(4, front=FRONT[0], left=SIDES[1])
    assert fitting.program({"event": "accepted", "build": worn})
    assert fitting.row.state == "accepted"
    assert pads_in(one) == DELIVERED | {"front": FRONT[1]}
    assert pads_in(two) == DELIVERED | {"front": FRONT[0], "left": SIDES[1]}
    assert verify().faults == ()


def test_what_lay_in_a_helmet_is_kept_in_the_visit_and_the_entry_stays_as_it_was_said(room):
    one = room.helmet("TV-1", shell=3)
    two = room.helmet("TV-2", shell=3, pads={"front": FRONT[0]})
    three = room.helmet("TV-3", shell=3)
    fitting = Fitting(room, helmet=one)
    fitting.program(proposed())
    fitting.reserve(two)
    before = lies(two)
    kept = fitting.say(put_on(front=FRONT[1]))
    assert step(fitting)["lay"] == build_to_wire(before, SHEET)
    assert '"lay"' not in kept.entry.payload
    assert lies(one) == lies(three)
    assert pads_in(two)["front"] == FRONT[1]
    there, _ = told(fitting)
    assert sorted(there.others) == [lies(one), lies(three)]
    assert verify().faults == ()


def test_of_two_helmets_with_equal_pads_it_makes_no_difference_which_is_taken(room):
    one, two = room.helmet("TV-1"), room.helmet("TV-2")
    room.received("front", FRONT[1], 1)
    fitting = Fitting(room, helmet=one)
    fitting.program(proposed())
    fitting.reserve(two)
    fitting.taken(put_on(front=FRONT[1]))
    assert "lay" not in step(fitting)
    check_agreed(fitting, [one, two], two)


def test_what_is_accepted_after_two_undos_is_the_helmet_on_the_head(room):
    one, two = room.helmet("TV-1", shell=3), room.helmet("TV-2", shell=4)
    fitting = Fitting(room, helmet=one)
    fitting.program(proposed())
    fitting.taken(put_on())
    fitting.taken(answered("front", "loose"))
    fitting.program(proposed(4))
    fitting.reserve(two)
    fitting.taken(put_on(4))
    fitting.taken({"event": "undone"})
    assert fitting.row.helmet_id == two, "it is proposed still"
    fitting.taken({"event": "undone"})
    assert fitting.row.helmet_id == one
    fitting.taken(answered("front", "snug"))
    assert fitting.program({"event": "accepted", "build": build()})
    (kept,) = Reservation.objects.filter(until__isnull=True)
    assert kept.helmet_id == one
    assert verify().faults == ()


def test_who_goes_back_to_the_shell_before_has_the_helmet_before_unless_others_took_it(room):
    one, two = room.helmet("TV-1", shell=3), room.helmet("TV-2", shell=4)
    fitting = Fitting(room, helmet=one)
    fitting.program(proposed(4))
    fitting.reserve(two)
    fitting.taken(put_on(4))
    room.received("front", FRONT[1], 1)
    fitting.taken(put_on(3, front=FRONT[1]))
    assert fitting.row.helmet_id == one
    assert pads_in(one)["front"] == FRONT[1]
    fitting.reserve(two)
    fitting.taken(put_on(4))
    other = Fitting(room)
    other.reserve(one)
    fitting.taken(put_on(3))
    assert fitting.has_no_helmet, "nobody says in which helmet that is"
    assert pads_in(one)["front"] == FRONT[1]
    fitting.taken({"event": "undone"})
    assert fitting.row.helmet_id == two, "it is on the head again"
    assert verify().faults == ()


def test_an_undo_leaves_alone_what_was_changed_since_and_every_other_helmet(room):
    one = room.helmet("TV-1", shell=3)
    two = room.helmet("TV-2", shell=4)
    fitting = Fitting(room, helmet=one)
    fitting.program(proposed(front=FRONT[1]))
    fitting.taken(put_on(front=FRONT[1]))
    fitting.taken(answered("front", "loose"))
    fitting.program(proposed(4))
    fitting.reserve(two)
    fitting.taken(put_on(4, front=FRONT[0], left=SIDES[0]))
    mine = pads_in(one)
    room.taken(PartsChanged(helmet=two, store=room.store, pads={"left": SIDES[1]}))
    fitting.taken({"event": "undone"})
    assert pads_in(two) == DELIVERED | {"left": SIDES[1]}
    assert pads_in(one) == mine
    assert verify().faults == ()


def test_an_undo_reaches_the_helmet_that_was_changed_though_another_is_taken_since(room):
    one, two = room.helmet("TV-1"), room.helmet("TV-2")
    fitting = Fitting(room, helmet=one)
    fitting.program(proposed(front=FRONT[1]))
    fitting.taken(put_on(front=FRONT[1]))
    fitting.reserve(two)
    fitting.taken({"event": "undone"})
    assert pads_in(one) == pads_in(two) == DELIVERED
    assert HelmetBuild.objects.filter(helmet=two).count() == 1
    assert verify().faults == ()


def test_a_station_says_here_what_the_guide_counted_and_names_the_helmet_that_lacks_least(room):
    room.received("sides", SIDES[0], 1)
    room.helmet("TV-1", shell=4)
    room.helmet("TV-2", shell=4, pads={"left": SIDES[0], "front": FRONT[0]})
    room.received("front", DELIVERED["front"], 1)
    mine, other = Fitting(room), Fitting(room)
    wanted = build(4, left=SIDES[0], right=SIDES[0])
    found = helmets_for(mine.row, wanted, Here(mine.row), now=room.now)
    assert [(each["code"], each["lacking"], each["changes"]) for each in found] == [
        ("TV-2", 0, 2),
        ("TV-1", 1, 2),
    ]
    reserve_side(other)
    here, (_, shelf) = Here(mine.row), told(Fitting(room))
    assert here.of("left", SIDES[0]) == 0 == (shelf.counts or {})["sides", SIDES[0]]
    assert Here(other.row).of("left", SIDES[0]) == 1


def reserve_side(fitting: Fitting) -> None:
    """The last side pad is meant for this visit."""
    part = PartReserved(visit=fitting.id, store=fitting.room.store, zone="left", size=SIDES[0])
    fitting.room.taken(part)


PADS = st.fixed_dictionaries(
    {"front": st.sampled_from(FRONT[1:4])},
    optional={"left": st.sampled_from(SIDES[1:4]), "right": st.sampled_from(SIDES[1:4])},
)
STEPS = st.lists(st.none() | st.tuples(st.sampled_from((3, 4)), PADS), min_size=1, max_size=6)
STOCK = st.lists(
    st.tuples(
        st.sampled_from(("front", "left", "sides")), st.sampled_from(FRONT[1:4]), st.integers(1, 2)
    ),
    max_size=4,
)


@settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.lists(PADS, min_size=3, max_size=3), st.booleans(), STOCK, STEPS)
def test_whatever_helmets_a_guided_visit_takes_only_what_is_there_is_used(
    inside, in_hand, stock, steps
):
    with transaction.atomic():
        room = Room()
        helmets = [
            room.helmet(f"TV-{number}", shell=shell, pads=pads)
            for number, (shell, pads) in enumerate(zip((3, 4, 4), inside, strict=True))
        ]
        for place, size, count in stock:
            room.received(place, size, count)
        follow(room, helmets, helmets[0] if in_hand else None, steps)
        assert verify().faults == ()
        transaction.set_rollback(True)


def follow(room: Room, helmets: list[UUID], hand: UUID | None, steps: list[Any]) -> None:
    """Put on what the guide allows, in the helmet that the station names first; or take it back."""
    fitting, before = Fitting(room, helmet=hand), list[UUID | None]()
    for asked in steps:
        there, shelf = told(fitting)
        if asked is None and before:
            fitting.taken({"event": "undone"})
            hand = before.pop()
        elif asked is not None:
            wire = build(asked[0], **asked[1])
            wanted = build_from_form(BuildForm.model_validate(wire), SHEET, "build")
            if not shelf.allows(wanted, there.helmet, worn=bool(before)):
                continue
            before.append(hand)
            hand = taken_for(fitting, wire, hand)
            fitting.taken({"event": "put on", "build": wire})
        check_agreed(fitting, helmets, hand)
        assert not before or fitting.row.helmet_id == hand


def taken_for(fitting: Fitting, wire: dict[str, Any], hand: UUID | None) -> UUID:
    """The helmet at hand where it has the shell, else the best one of the station's list."""
    row: Visit = fitting.row
    if hand is not None and Helmet.objects.get(id=hand).shell == wire["shell"]:
        return hand
    best = helmets_for(row, wire, Here(row), now=fitting.room.now)[0]
    assert best["good"]
    assert best["lacking"] == 0
    fitting.reserve(UUID(best["id"]))
    return UUID(best["id"])


def test_the_start_tells_what_lies_in_the_helmets_that_could_be_had(room):
    mine = room.helmet("TV-1")
    room.helmet("TV-2", shell=4, pads={"front": FRONT[0]})
    room.helmet("TV-3", shell=2, store=room.drawer)
    room.helmet("TV-4", shell=2, interval_months=1)
    taken = room.helmet("TV-5", shell=5)
    Fitting(room, helmet=taken)
    fitting = Fitting(room, helmet=mine)
    started = event_from_wire(events_of(fitting.row)[0], SHEET)
    assert isinstance(started, Started)
    assert started.current == Build(3, SHEET.delivered)
    assert [each.shell for each in started.helmets] == [4]
    assert started.helmets[0].pads[1] == 0
    assert not [row for row in started.shelf or () if row[0] == "shell"]
