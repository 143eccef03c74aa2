"""Helmets of fit visits: whose they are, and what is in them."""

import pytest

from helmwright.records.kinds.things import HelmetHeld, PartsChanged, SheetAdded
from helmwright.records.kinds.visits import HelmetIssued, HelmetReserved
from helmwright.records.models import Reservation, Visit
from helmwright.records.readers.fitted import fitted
from helmwright.records.sheets import read_sheet
from helmwright.records.words import room_day
from helmwright.visit.sheet_digest import sheet_digest
from tests.records.entries import tell
from tests.records.fitting import (
    MEASURED,
    Fitting,
    pads_in,
    proposed,
    put_on,
)
from tests.records.room import SHEET, TEXT

pytestmark = pytest.mark.django_db
FRONT = SHEET.pad("front").labels  # type: ignore[arg-type]


def test_a_card_tells_the_pads_that_were_accepted_and_not_those_of_today(room):
    helmet = room.helmet()
    fitting = Fitting(room, helmet=helmet)
    fitting.taken(MEASURED)
    assert fitting.program(proposed(front=FRONT[1]))
    fitting.taken(put_on(front=FRONT[1]))
    Visit.objects.filter(id=fitting.id).update(state="accepted", ended_at=room.now)
    room.taken(PartsChanged(helmet=helmet, store=room.store, pads={"front": FRONT[2]}))
    card = fitted(fitting.id, today=room_day(room.now))
    assert card is not None
    assert card.pads["front"] == FRONT[1]
    assert pads_in(helmet)["front"] == FRONT[2]


def test_a_helmet_of_another_model_is_not_meant_for_a_visit(room, fitting):
    text = TEXT.replace(SHEET.model, "Another Ouzel (invented)")
    digest = sheet_digest(read_sheet(text))
    room.taken(SheetAdded(digest=digest, text=text))
    helmet = room.helmet("TV-9", sheet=digest)
    kept = tell(HelmetReserved(visit=fitting.id, helmet=helmet))
    assert not kept.is_taken
    assert "another model" in kept.entry.note
    assert fitting.row.helmet is None


def test_a_helmet_is_in_one_visit_at_a_time(room):
    helmet = room.helmet()
    Fitting(room, helmet=helmet)
    late = Fitting(room, helmet=helmet).begun
    assert not late.is_taken
    assert late.entry.note.startswith("TV-0147 is being fitted at Station")


def test_the_helmet_follows_what_is_on_the_head_and_the_shelf_with_it(room):
    helmet = room.helmet()
    before = pads_in(helmet)["front"]
    other = next(label for label in FRONT if label != before)
    room.received("front", other, 1)
    fitting = Fitting(room)
    fitting.program(proposed(front=other))
    fitting.reserve(helmet)
    fitting.taken(put_on(front=other))
    assert pads_in(helmet)["front"] == other
    assert room.on_hand("front", other) == 0
    assert room.on_hand("front", before) == 1
    fitting.taken({"event": "undone"})
    assert pads_in(helmet)["front"] == before
    assert room.on_hand("front", other) == 1
    assert room.on_hand("front", before) == 0


def test_a_pad_that_was_never_counted_in_is_put_on_all_the_same(room):
    helmet = room.helmet()
    other = next(label for label in FRONT if label != pads_in(helmet)["front"])
    fitting = Fitting(room, helmet=helmet)
    fitting.program(proposed(front=other))
    fitting.taken(put_on(front=other))
    assert room.on_hand("front", other) == -1


def test_a_helmet_of_another_shell_is_left_as_it_is(room):
    helmet = room.helmet(shell=3)
    before = pads_in(helmet)
    fitting = Fitting(room, helmet=helmet)
    fitting.program(proposed(4))
    fitting.taken(put_on(4))
    assert pads_in(helmet) == before


def test_another_build_is_on_the_head_whether_or_not_somebody_says_why(fitting):
    fitting.program(proposed())
    visit = fitting.taken(put_on(front=FRONT[0]))
    assert visit.try_ons == 1
    assert visit.build is not None
    assert visit.build["pads"]["front"]["pad"] == FRONT[0]


def test_a_visit_that_ends_gives_up_what_was_spoken_for(room):
    helmet = room.helmet()
    fitting = Fitting(room)
    fitting.program(proposed())
    fitting.reserve(helmet)
    fitting.taken({"event": "stopped"}, words="the bus leaves")
    assert not Reservation.objects.filter(until=None).exists()


def test_a_helmet_that_may_not_be_issued_is_not_tried_on_either(room):
    held, lapsed = room.helmet("TV-0115"), room.helmet("TV-0116", interval_months=1)
    room.taken(HelmetHeld(helmet=held, why="a crack at the rear"))
    for helmet, why in ((held, "on hold: a crack at the rear"), (lapsed, "lapsed on Mar 20")):
        begun = Fitting(room, helmet=helmet).begun
        assert not begun.is_taken
        assert why in begun.entry.note
        assert "Take another helmet" in begun.entry.note
    assert not Visit.objects.exists()


def test_a_helmet_of_another_player_is_not_tried_on_and_ones_own_is(room):
    helmet, meant = room.helmet(), room.helmet("TV-0200")
    holder = Fitting(room)
    room.taken(HelmetIssued(helmet=helmet, player=holder.player.id, purpose="game"))
    holder.reserve(meant)
    for wanted, why in (
        (helmet, "was issued to another player"),
        (meant, "TV-0200 is being fitted"),
    ):
        begun = Fitting(room, helmet=wanted).begun
        assert not begun.is_taken
        assert why in begun.entry.note
    holder.taken({"event": "stopped"})
    assert holder.begin(visit=room.drawer, helmet=helmet).is_taken
