"""The first steps of a room that holds nothing yet, and what an empty list lacks."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple
from urllib.parse import urlencode

from django.http import HttpRequest
from django.urls import reverse

from helmwright.records.readers.opening import Lack, lacks
from helmwright.web.allowed import ALLOWED, signed_in


class Act(NamedTuple):
    """A page at which it is done, by the name of its address, and what the link says."""

    words: str
    page: str
    query: tuple[tuple[str, str], ...] = ()
    part: str = ""

    @property
    def address(self) -> str:
        """Where it is."""
        asked = f"?{urlencode(self.query)}" if self.query else ""
        return f"{reverse(self.page)}{asked}{self.part}"


@dataclass(frozen=True, slots=True)
class Step:
    """What is lacked, why it is wanted, and where it is put right.

    Parameters
    ----------
    lack
        What the room does not have.
    what, why
        Two sentences.
    acts
        What there is to choose from; empty for a role that may do none of it.
    """

    lack: Lack
    what: str
    why: str
    acts: Sequence[Act]

    @property
    def missing(self) -> str:
        """The same, said where a list is empty for the want of it."""
        return MISSING[self.lack]


MISSING = {
    Lack.TEAM: "The room has no team yet.",
    Lack.SHEET: "The room has no model sheet yet.",
    Lack.STORE: "The room has no store yet.",
    Lack.ROSTER: "Nobody is on the roster yet.",
    Lack.HELMETS: "No helmet is in the records yet.",
    Lack.STOCK: "No part is in store yet.",
    Lack.PINS: "Nobody who fits has a PIN yet.",
    Lack.DEVICE: "The room knows no tablet yet.",
}

STEPS = (
    Step(
        Lack.TEAM,
        "Open the team.",
        "Players belong to a team, and its name stands on every page and print.",
        (Act("Name the team", "room", part="#team"),),
    ),
    Step(
        Lack.SHEET,
        "Add a model sheet.",
        "It says which shells, pads and parts a helmet model has: without it the room can hold no"
        " helmet and no part, and propose nothing.",
        (Act("Add a model sheet", "room", part="#sheets"),),
    ),
    Step(
        Lack.STORE,
        "Open a store.",
        "A place that holds helmets and parts: the equipment room, a trunk.",
        (Act("Open a store", "room", part="#stores"),),
    ),
    Step(
        Lack.ROSTER,
        "Put the players on the roster.",
        "From a spreadsheet, with what is known of their heads, or one by one.",
        (
            Act("Take in a roster", "take-in", (("what", "roster"),)),
            Act("Add a player", "player-add"),
        ),
    ),
    Step(
        Lack.HELMETS,
        "Add the helmets.",
        "Each with the ID on its label, its shell and the dates inside it.",
        (
            Act("Take in a list", "take-in", (("what", "helmets"),)),
            Act("Add a helmet", "helmet-add"),
        ),
    ),
    Step(
        Lack.STOCK,
        "Say what is in stock.",
        "Pads and parts that are on the shelf: a proposal counts on nothing that is not there.",
        (
            Act("Take in a stock list", "take-in", (("what", "stock"),)),
            Act("Count in a store", "stores"),
        ),
    ),
    Step(
        Lack.PINS,
        "Give a PIN to whoever fits.",
        "At a station one signs in with a tap on a name and a PIN.",
        (Act("See the staff", "staff"),),
    ),
    Step(
        Lack.DEVICE,
        "Let a tablet in.",
        "The room makes a code; typed on the tablet, it makes a station of it.",
        (Act("Let a tablet in", "devices"),),
    ),
)
"""In the order in which one leans on another."""


def first_steps(request: HttpRequest) -> list[Step]:
    """Those that are still to be done, with the acts that who is signed in may do."""
    open_now, role = lacks(), signed_in(request).role
    return [
        Step(step.lack, step.what, step.why, [a for a in step.acts if role in ALLOWED[a.page]])
        for step in STEPS
        if step.lack in open_now
    ]


def lacked(request: HttpRequest, *wanted: Lack) -> list[Step]:
    """Those among what a page leans on that the room does not have."""
    return [step for step in first_steps(request) if step.lack in wanted]
