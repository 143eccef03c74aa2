"""The fitting day itself: every station's players in turn, as long ago as the story says."""

import heapq
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from helmwright.fit.outlook import Build
from helmwright.records.actions import visits
from helmwright.records.demo import story
from helmwright.records.demo.fitter import Fitter
from helmwright.records.demo.setting import Setting, acknowledged
from helmwright.records.demo.story import Ending
from helmwright.records.kinds.things import PartsCounted
from helmwright.records.kinds.visits import (
    HelmetIssued,
    HelmetReserved,
    PartReserved,
    VisitBegun,
    VisitSaid,
)
from helmwright.records.ledger import Said
from helmwright.records.models import Visit
from helmwright.records.readers.station_visit import Here, helmets_for
from helmwright.records.readers.visit_events import events_of
from helmwright.records.visit_read import known_of
from helmwright.visit import (
    AskCheck,
    AskMeasure,
    AskPutOn,
    Event,
    Guide,
    MeasureSkipped,
    Paused,
    PutOn,
    Record,
    Started,
    Step,
)
from helmwright.visit.wire import event_from_wire, event_to_wire
from helmwright.visit.wire_build import build_to_wire

A_STEP = timedelta(seconds=19)
"""From one answer to the next."""

TO_PUT_ON = timedelta(minutes=3)
CHECKS_DONE = 9
"""Of the visit that is in its checks."""


def played(setting: Setting, *, tell: Callable[[], object]) -> None:
    """Play the day to the end of the story; of all stations whoever is next in time goes on.

    `tell` is called at the end of each visit's part in it.
    """
    going_on = [
        (setting.ago(minutes=turn.minutes_ago), place, station, turn)
        for place, (station, turn) in enumerate(
            (station, turn) for station in story.STATIONS for turn in station.turns
        )
    ]
    queue: list[tuple[datetime, int, Iterator[datetime]]] = [
        (began, place, _Fitting(setting, station, turn).steps(began))
        for began, place, station, turn in going_on
    ]
    heapq.heapify(queue)
    while queue:
        _, place, steps = heapq.heappop(queue)
        at = next(steps, None)
        if at is None:
            tell()
        else:
            heapq.heappush(queue, (at, place, steps))


class _Fitting:
    """One player's visit, as far as the story tells it."""

    def __init__(self, setting: Setting, station: story.Station, turn: story.Turn) -> None:
        self._setting, self._station, self._turn = setting, station, turn
        self._player = setting.players[turn.number]
        self._answers = 0

    def steps(self, at: datetime) -> Iterator[datetime]:
        """Do what comes next, then say when the step after it comes."""
        self._begin(at)
        fitter = Fitter.of(self._started(), self._setting.sheet, seed=int(self._turn.number))
        while True:
            step = self._asked(at)
            act = None if step is None or self._is_far_enough(step) else self._act(step, fitter, at)
            if act is None:
                break
            at += TO_PUT_ON if isinstance(act, PutOn) else A_STEP
            yield at
            self._tell(act, at)
        yield from self._ended(at)

    def _begin(self, at: datetime) -> None:
        setting = self._setting
        self._visit = setting.fixed(f"visit of {self._turn.number}")
        begun = VisitBegun(
            visit=self._visit,
            player=self._player,
            store=setting.stores[self._station.store],
            sheet=setting.digest,
        )
        visits.begin(said=self._said(begun, at), now=at)
        row = Visit.objects.select_related("sheet").get(id=self._visit)
        known = known_of(row.sheet)
        self._guide = Guide(known.sheet, known.protocol)
        self._events = [event_from_wire(wire, known.sheet) for wire in events_of(row)]

    def _asked(self, at: datetime) -> Step | None:
        """What is asked of the fitter; what the program has to say first is said."""
        while True:
            step = self._guide.next(self._events)
            if not isinstance(step, Record):
                return step
            self._program_says(step.event, at)

    def _act(self, step: Step, fitter: Fitter, at: datetime) -> Event | None:
        if isinstance(step, AskMeasure):
            return MeasureSkipped(step.measure)
        if isinstance(step, AskPutOn):
            return PutOn(step.build) if self._put_together(step, at) else None
        if isinstance(step, AskCheck):
            self._answers += 1
            return fitter.answer(self._build(), step.check)
        return None

    def _is_far_enough(self, step: Step) -> bool:
        """Whether the story leaves the visit here."""
        ending = self._turn.ending
        if isinstance(step, AskPutOn):
            return ending in (Ending.PROPOSED, Ending.PAUSED)
        return ending == Ending.CHECKED and self._answers >= CHECKS_DONE

    def _put_together(self, step: AskPutOn, at: datetime) -> bool:
        """Take the helmet with the fewest changes, and what goes into it."""
        best = self._best(step, at)
        if best is None:
            return False
        mine = HelmetReserved(visit=self._visit, helmet=UUID(best["id"]))
        self._setting.say(mine, at, self._station.fitter, self._station.name)
        for swap in best["swaps"]:
            if swap["here"]:
                part = PartReserved(
                    visit=self._visit,
                    store=self._setting.stores[self._station.store],
                    zone=swap["zone"],
                    size=swap["into"],
                )
                self._setting.say(part, at, self._station.fitter, self._station.name)
        return True

    def _best(self, step: AskPutOn, at: datetime) -> dict[str, Any] | None:
        row = self._row()
        build = build_to_wire(step.build, self._setting.sheet)
        found = helmets_for(row, build, Here(row), now=at)
        return found[0] if found and found[0]["good"] else None

    def _ended(self, at: datetime) -> Iterator[datetime]:
        if self._turn.ending == Ending.PAUSED:
            yield from self._pause(at)
        elif self._turn.ending == Ending.ISSUED:
            at += timedelta(minutes=2)
            yield at
            row = self._row()
            if row.state == "accepted" and row.helmet_id:
                self._issue(row.helmet_id, at)

    def _pause(self, at: datetime) -> Iterator[datetime]:
        """The drawer is empty, whatever its label says; the player goes to class meanwhile."""
        step = self._asked(at)
        best = self._best(step, at) if isinstance(step, AskPutOn) else None
        at += timedelta(minutes=2)
        yield at
        if best and best["swaps"]:
            swap = best["swaps"][0]
            counted = PartsCounted(
                store=self._setting.stores[self._station.store],
                sheet=self._setting.digest,
                place=swap["zone"],
                size=swap["into"],
                count=0,
            )
            self._setting.say(counted, at, story.STUDENT)
        self._tell(Paused(), at)

    def _issue(self, helmet: UUID, at: datetime) -> None:
        by, on = self._station.fitter, self._station.name
        self._setting.say(acknowledged(self._player, helmet, self._visit), at, by, on)
        issued = HelmetIssued(helmet=helmet, player=self._player, visit=self._visit)
        self._setting.say(issued, at, by, on)

    def _tell(self, event: Event, at: datetime) -> None:
        wire = event_to_wire(event, self._setting.sheet)
        said = VisitSaid(
            visit=self._visit, player=self._player, place=len(self._events), event=wire
        )
        kept = visits.say(said=self._said(said, at), now=at)
        if not kept.is_taken:
            raise ValueError(f"the story does not hold: {wire}: {kept.entry.note}")
        self._events.append(event)

    def _program_says(self, event: Event, at: datetime) -> None:
        wire = event_to_wire(event, self._setting.sheet)
        visits.say_next(
            visit=self._visit, player=self._player, place=len(self._events), events=[wire], now=at
        )
        self._events.append(event)

    def _said(self, payload: VisitBegun | VisitSaid, at: datetime) -> Said:
        setting, station = self._setting, self._station
        name = f"{payload.KIND} {self._turn.number} {getattr(payload, 'place', '')}"
        return Said(
            setting.id(name, at),
            payload,
            at,
            setting.staff[station.fitter].id,
            setting.devices[station.name],
        )

    def _row(self) -> Visit:
        return Visit.objects.select_related("sheet", "player").get(id=self._visit)

    def _started(self) -> Started:
        started = self._events[0]
        assert isinstance(started, Started)  # noqa: S101 - place 0 of every visit
        return started

    def _build(self) -> Build | None:
        worn = [event.build for event in self._events if isinstance(event, PutOn)]
        return worn[-1] if worn else None
