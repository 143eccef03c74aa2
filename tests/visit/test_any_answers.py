"""Whatever is answered, a visit ends, proposes what is there, and can be played again."""

from dataclasses import dataclass, field

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from helmwright.anatomy import Sex
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.outlook import Build
from helmwright.visit.at_hand import at_hand
from helmwright.visit.event import (
    Answered,
    Event,
    Measured,
    MeasureSkipped,
    NoBuild,
    Paused,
    Proposed,
    PutOn,
    Resumed,
    Stopped,
    SymptomReported,
    Undone,
)
from helmwright.visit.guide import Guide
from helmwright.visit.shelf import Shelf
from helmwright.visit.state import fold
from helmwright.visit.step import AskCheck, AskMeasure, AskPutOn, Ended, PausedNow, Record, Step
from tests.visit.scripts import DELIVERED, OUZEL, WHOLE, begun, moved
from tests.visit.simulated import FIVE, quick_guide

SHELF = (
    ("front", OUZEL.pads[1].labels[3], 1),
    ("sides", OUZEL.pads[3].labels[3], 1),
    ("crown", OUZEL.pads[0].labels[3], 2),
    ("shell", "4", 1),
)
STARTS = (
    begun(readings=FIVE, stated={"sex": Sex.MALE}),
    begun(readings=FIVE[:2], stated={"sex": Sex.MALE}, current=DELIVERED, shelf=SHELF),
)

Guides = tuple[Guide, Guide]
"""Two that were made alike: one is asked as the visit goes, the other afterward."""


def guides(most_try_ons: int) -> Guides:
    one, other = (quick_guide(WHOLE, most_try_ons=most_try_ons, draws=32) for _ in range(2))
    return one, other


SHORT, LONG = guides(2), guides(6)
LONGEST = 1000
SAID = (Answered, PutOn, Measured, MeasureSkipped, Stopped, SymptomReported)


@dataclass
class Wild:
    """Someone who answers anything, takes back, breaks off and goes on."""

    data: st.DataObject
    guide: Guide
    whims: int = 8
    events: list[Event] = field(default_factory=list)

    def plays(self) -> list[Event]:
        start: Event = self.data.draw(st.sampled_from(STARTS))
        self.events = [start]
        while not isinstance(step := self.guide.next(self.events), Ended):
            assert len(self.events) < LONGEST
            self.events += self.responds(step)
        return self.events

    def responds(self, step: Step) -> list[Event]:
        if isinstance(step, PausedNow):
            return [Resumed()]
        if isinstance(step, Record):
            return [step.event]
        if self.whims and self.data.draw(st.integers(0, 5)) == 0:
            self.whims -= 1
            return self.whim()
        if isinstance(step, AskMeasure):
            return [self.measured(step)]
        if isinstance(step, AskPutOn):
            return [PutOn(step.build)]
        assert isinstance(step, AskCheck)
        return self.answers(step)

    def measured(self, step: AskMeasure) -> Event:
        skips = self.data.draw(st.booleans())
        readings = tuple(each for each in FIVE if each.measure == step.measure)
        return MeasureSkipped(step.measure) if skips or not readings else Measured(readings)

    def answers(self, step: AskCheck) -> list[Event]:
        good = "snug"
        words = [each.word for each in step.check.answers]
        word = self.data.draw(st.sampled_from([good, good, good, *words]))
        value = self.data.draw(st.floats(0.0, 101.0)) if step.check.length else None
        return [Answered(step.check.key, word, value)]

    def whim(self) -> list[Event]:
        kind = self.data.draw(st.sampled_from(["undo", "undo", "pause", "other", "end"]))
        if kind == "undo":
            said = any(isinstance(e, (Answered, PutOn)) for e in self.events)
            back = bool(fold(self.events).try_ons) and said
            return [Undone()] if back else []
        if kind == "pause":
            return [Paused()]
        if kind == "other":
            step = self.data.draw(st.integers(-1, 1))
            return [PutOn(moved(DELIVERED, front=step, nape=step), "it was at hand")]
        ends: list[Event] = [Stopped("enough"), SymptomReported("numb")]
        end = self.data.draw(st.sampled_from(ends))
        return [end] if self.data.draw(st.integers(0, 4)) == 0 else []


ANYTHING = settings(
    max_examples=6,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


THOROUGH = settings(ANYTHING, max_examples=40)
"""For nights: so many visits, of up to six try-ons."""


@ANYTHING
@given(st.data())
def test_whatever_is_answered_a_visit_ends_with_what_is_there_and_can_be_played_again(data):
    _plays_and_holds(data, SHORT, whims=8)


@pytest.mark.slow
@THOROUGH
@given(st.data())
def test_whatever_is_answered_in_long_visits_they_end_as_well_and_can_be_played_again(data):
    _plays_and_holds(data, LONG, whims=20)


def _plays_and_holds(data: st.DataObject, two: Guides, whims: int) -> None:
    events = Wild(data, two[0], whims).plays()
    _proposes_only_what_is_listed_in_stock_and_not_rejected(events)
    _restores_exactly_what_was_where_it_is_undone(events)
    _goes_the_same_way_whatever_was_asked_before(events, data, two)


def _proposes_only_what_is_listed_in_stock_and_not_rejected(events: list[Event]) -> None:
    start = fold(events).started
    shelf = Shelf.of(OUZEL, start.shelf)
    for place, event in enumerate(events):
        if isinstance(event, Proposed):
            before = fold(events[:place])
            assert is_allowed(OUZEL, event.build.pads)
            there = at_hand(before, OUZEL)
            worn = bool(before.try_ons)
            # What was put on for another reason was there, whatever the stock list said.
            assert shelf.after(there).allows(event.build, there.helmet, worn=worn)
            assert event.build not in before.rejected
            assert before.now is None or event.build != before.now.build
            assert 0.0 <= event.found_right <= 1.0
            assert 0.0 <= event.fits <= 1.0
        if isinstance(event, NoBuild):
            assert event.why
            assert all(each.lacking for each in event.would)


def _goes_the_same_way_whatever_was_asked_before(
    events: list[Event], data: st.DataObject, two: Guides
) -> None:
    for place in data.draw(st.permutations(range(1, len(events)))):
        step = two[1].next(events[:place])
        if isinstance(step, Record):
            assert step.event == events[place]
        assert step == two[0].next(events[:place])


def _restores_exactly_what_was_where_it_is_undone(events: list[Event]) -> None:
    for place in range(2, len(events) + 1):
        if isinstance(events[place - 1], SAID):
            assert fold([*events[:place], Undone()]) == fold(events[: place - 1])


def test_the_way_of_a_visit_does_not_depend_on_the_guide_that_is_asked():
    fresh = quick_guide(WHOLE, most_try_ons=2, draws=32)
    events: list[Event] = [STARTS[0]]
    while not isinstance(step := fresh.next(events), Ended):
        assert step == SHORT[0].next(events)
        if isinstance(step, Record):
            events.append(step.event)
        elif isinstance(step, AskMeasure):
            events.append(MeasureSkipped(step.measure))
        elif isinstance(step, AskPutOn):
            events.append(PutOn(Build(step.build.shell, step.build.pads)))
        elif isinstance(step, AskCheck):
            bad = step.check.key in ("front", "rear")
            value = 25.0 if step.check.length else None
            events.append(Answered(step.check.key, "tight" if bad else "snug", value))
    assert isinstance(events[-1], NoBuild)
