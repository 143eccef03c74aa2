"""What a process that guides is asked, and what it answers: plain data that goes over a pipe."""

import hashlib
import json
from dataclasses import dataclass, field
from typing import Any

Json = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Asked:
    """A visit, up to now.

    Parameters
    ----------
    visit
        Which; its beliefs are remembered under it.
    sheet, digest
        Text of the model sheet, and its digest.
    events
        All events so far, as a visit writes them, the start with its shelf first.
    position, glasses
        What the player brings to the choice of face guard.
    """

    visit: str
    sheet: str
    digest: str
    events: tuple[Json, ...]
    position: str = ""
    glasses: bool | None = None

    @property
    def key(self) -> str:
        """The same for the same question: the answer is a function of it."""
        asked = [self.visit, self.digest, self.events, self.position, self.glasses]
        return hashlib.sha256(json.dumps(asked, sort_keys=True).encode()).hexdigest()

    def going_on(self, said: tuple[Json, ...]) -> "Asked":
        """The same visit after more events."""
        return Asked(
            self.visit, self.sheet, self.digest, (*self.events, *said), self.position, self.glasses
        )


@dataclass(frozen=True, slots=True)
class Answer:
    """What comes next.

    Parameters
    ----------
    said
        Events that the program has to say first, as a visit writes them.
    message
        The question or the end, as `visit.lines_out` writes it, after those events.
    proposal
        The open proposal in the same form; None where none is open.
    build, before
        Proposed or on the head, and what is in the helmet before that; None before the first.
    drawing
        The build on the head ("now") and the one that is proposed ("after"), as SVG.
    zones
        What is expected zone by zone of the proposed build, or of the one on the head.
    other_builds, measure_next
        What else could be tried, and what one more measure would add.
    try_ons, found
        What was tried, and what was found, stage by stage.
    told
        What is said once: cautions, assumptions, symptoms, the protocol's name.
    undo
        What would be taken back, in words; empty where nothing can be.
    progress
        How far the checks of the present try-on are; None where none are due.
    """

    said: tuple[Json, ...]
    message: Json
    proposal: Json | None = None
    build: Json | None = None
    before: Json | None = None
    drawing: Json = field(default_factory=dict)
    zones: tuple[Json, ...] = ()
    other_builds: tuple[Json, ...] = ()
    measure_next: tuple[Json, ...] = ()
    try_ons: tuple[Json, ...] = ()
    found: tuple[Json, ...] = ()
    told: Json = field(default_factory=dict)
    undo: str = ""
    progress: Json | None = None
