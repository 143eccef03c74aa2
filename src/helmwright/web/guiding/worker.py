"""Answers for one visit what comes next, with everything that a station shows of it."""

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from helmwright.catalogue import ModelSheet, parse_sheet
from helmwright.fit.outlook import Build
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.found import FoundStage, found_by_stage
from helmwright.reports.visit_end_page import DO_NOT, NO_CLEARING, NOT_ACCEPTED, SPINE
from helmwright.roster import Player
from helmwright.roster.face import face_wish
from helmwright.visit import (
    Event,
    Expectation,
    Guide,
    NoBuild,
    Protocol,
    Stopped,
    SymptomReported,
    Visit,
    expectations,
    face_start,
    protocol_for,
    summary,
)
from helmwright.visit.belief import batches, generator
from helmwright.visit.lines import Dialogue
from helmwright.visit.lines_out import OUT_MESSAGE
from helmwright.visit.lines_told import Expecting, Telling
from helmwright.visit.said_words import said_words
from helmwright.visit.undo import can_be_undone
from helmwright.visit.wire import event_from_wire, event_to_wire
from helmwright.visit.wire_build import build_to_wire
from helmwright.web.guiding.asked import Answer, Asked, Json
from helmwright.web.guiding.progress import progress
from helmwright.web.guiding.seen import Seen, seen

GUIDES = 8
"""Visits whose beliefs a process remembers; each holds some ten megabytes."""

Sheets = tuple[ModelSheet, Protocol]


def answer(asked: Asked) -> Answer:
    """What comes next in a visit.

    Raises
    ------
    ValueError
        Where the events cannot be those of a visit of this sheet, or no head has such readings.
    """
    sheet, protocol = _sheet(asked.sheet)
    guide = _guide(asked.visit, asked.digest, sheet, protocol)
    kept = Memory(tuple(event_from_wire(wire, sheet) for wire in asked.events))
    telling = _telling(guide, asked)
    begun = Dialogue(guide, kept, telling, _no_readings).begin()
    visit = guide.visit(kept.events)
    told = OUT_MESSAGE.dump_python(begun, mode="json", by_alias=True, exclude_unset=True)
    next_: Json = told["next"]
    is_open = next_["message"] == "proposal"
    # A proposal is told once; what was answered since is not asked again.
    message = next_["next"] if is_open and visit.ahead else next_
    shown = _shown(guide, visit, kept.events)
    return Answer(
        said=tuple(event_to_wire(each, sheet) for each in kept.events[len(asked.events) :]),
        message=message,
        proposal=next_ if is_open else None,
        build=_wire(visit.proposal.build if visit.proposal else visit.in_helmet, sheet),
        before=next_["before"] if is_open else None,
        drawing={"now": shown.now, "after": shown.after, "paper": shown.paper},
        zones=shown.zones,
        other_builds=shown.other_builds,
        measure_next=shown.measure_next,
        try_ons=_dumped(telling.try_ons(visit)),
        found=tuple(map(_found, found_by_stage(summary(visit, protocol, sheet), protocol))),
        told={name: told[name] for name in ("protocol", "symptoms", "cautions", "assumed")},
        undo=_taken_back(kept.events, protocol),
        progress=progress(protocol, visit),
    )


@dataclass
class Memory:
    """Events of one question; nothing is kept here."""

    events: tuple[Event, ...]

    def append(self, *events: Event) -> None:
        """More, said by the program."""
        self.events += events


def _shown(guide: Guide, visit: Visit, events: Sequence[Event]) -> Seen:
    """Nothing is drawn in a pause, and at an end without a fit."""
    ends = (NoBuild, Stopped, SymptomReported)
    if visit.paused or isinstance(visit.ended, ends):
        return Seen()
    return seen(guide, visit, events)


@lru_cache(maxsize=16)
def _sheet(text: str) -> Sheets:
    sheet = parse_sheet(text, name="the sheet")
    return sheet, protocol_for(sheet)


_guides: "OrderedDict[tuple[str, str], Guide]" = OrderedDict()


def _guide(visit: str, digest: str, sheet: ModelSheet, protocol: Protocol) -> Guide:
    """The guide that remembers what this visit led to believe."""
    key = (visit, digest)
    guide = _guides.pop(key, None) or Guide(sheet, protocol)
    _guides[key] = guide
    while len(_guides) > GUIDES:
        _guides.popitem(last=False)
    return guide


def _telling(guide: Guide, asked: Asked) -> Telling:
    return Telling(
        guide.sheet,
        guide.protocol,
        cautions=CAUTIONS,
        assumed=(ASSUMED,),
        not_accepted=(NOT_ACCEPTED, DO_NOT),
        at_symptom=(NO_CLEARING, SPINE),
        expected=_expecting(guide, asked),
    )


def _expecting(guide: Guide, asked: Asked) -> Expecting:
    """What to expect at the checks of strap and face."""
    wish = face_wish(Player(0, position=asked.position, glasses=asked.glasses))

    def expecting(visit: Visit) -> Mapping[str, Expectation]:
        build = visit.in_helmet
        if build is None:
            return {}
        cloud = guide.beliefs.after(visit, batches(guide.protocol.checks, visit)).cloud
        face = face_start(cloud, build, rng=generator(visit, "face", build), wish=wish)
        return expectations(guide.protocol, face=face)

    return expecting


def _taken_back(events: Sequence[Event], protocol: Protocol) -> str:
    said = can_be_undone(events)
    return said_words(said[-1][1], protocol) if said else ""


def _no_readings(*_: Any) -> tuple[()]:
    return ()


def _found(stage: FoundStage) -> Json:
    return {
        "stage": stage.stage,
        "told": stage.told,
        "on_the_way": stage.on_the_way,
        "checks": [{"title": each.title, "words": each.words} for each in stage.checks],
    }


def _wire(build: Build | None, sheet: ModelSheet) -> Json | None:
    return None if build is None else build_to_wire(build, sheet)


def _dumped(forms: Sequence[Any]) -> tuple[Json, ...]:
    return tuple(each.model_dump(mode="json", by_alias=True, exclude_unset=True) for each in forms)
