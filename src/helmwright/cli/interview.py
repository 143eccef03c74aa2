"""The questions of `helmwright sheet new`, in the order in which a person finds the answers."""

import unicodedata
from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from helmwright.catalogue.drafting import DraftPads, SheetDraft
from helmwright.catalogue.zone import Zone
from helmwright.cli.written_answers import (
    AnswerError,
    ages,
    length_mm,
    one_of,
    span,
    thicknesses,
    with_unit,
    yes,
)
from helmwright.units import inches, parse_length

BAND_MM = (400.0, 760.0)
PAD_MM = (1.0, 80.0)
MOST_SHELLS = 20
BACK = "back"

BAND_EXAMPLE = "both ends of the band, such as 20 1/2 to 21 1/2"
PAD_EXAMPLE = (
    "Write the thicknesses with commas between, such as 5/8, 3/4, 7/8; or 5/8 to 1 by 1/8; or none"
)
INSIDES = {
    "inside_length": ("inside length, front to rear at the widest", (150.0, 330.0)),
    "inside_breadth": ("inside breadth, side to side at the widest", (120.0, 280.0)),
    "jaw_width": ("inside width where the middles of the jaw pads sit", (100.0, 260.0)),
    "inside_depth": ("inside depth, crown down to the level of the front edge", (50.0, 150.0)),
    "front_edge": ("front edge, straight up from the center of the ear opening", (20.0, 100.0)),
}
_GROWS = ("inside_length", "inside_breadth", "jaw_width", "inside_depth")

PLACES: dict[str, tuple[Zone, ...]] = {
    "crown": (Zone.CROWN,),
    "front": (Zone.FRONT,),
    "rear": (Zone.REAR,),
    "left and right": (Zone.LEFT, Zone.RIGHT),
    "nape": (Zone.NAPE,),
    "jaw": (Zone.JAW_LEFT, Zone.JAW_RIGHT),
}
"""Places that a person asks for at once, and their zones."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question.

    Parameters
    ----------
    part
        The part of the interview that it belongs to.
    asks
        The question.
    enter
        What an empty answer means; "" where there must be one.
    read
        Turns the typed answer into what goes on; raises AnswerError.
    """

    part: str
    asks: str
    enter: str
    read: Callable[[str], Any]


Interview = Generator[Question, Any, SheetDraft]


def interview() -> Interview:
    """The questions, one after the other; what was read is sent back for each."""
    model = yield Question("The helmet", "What do you call this helmet?", "", _name)
    bands = yield from _chart()
    pads: dict[Zone, DraftPads | None] = {}
    front: DraftPads | None = None
    for place, zones in PLACES.items():
        found = yield from _pads(place, front)
        front = found if place == "front" else front
        pads |= dict.fromkeys(zones, found)
    years = yield Question(
        "The players", "For which ages is it made, such as 8 to 14?", "adults", ages
    )
    measured = yield Question(
        "The insides",
        "Do you have inside calipers and a bare shell of each size here? (y or n)",
        "no; usual insides are assumed",
        lambda text: yes(text, unless=False),
    )
    insides = (yield from _insides(len(bands))) if measured else ()
    return SheetDraft(model, tuple(bands), pads, years, tuple(insides))


def _name(text: str) -> str:
    name = " ".join(text.split())
    if not name:
        raise AnswerError("a helmet needs a name", "Write what the shelf or the maker calls it")
    if any(unicodedata.category(each).startswith("C") for each in name):
        raise AnswerError("the name holds something that cannot be printed", "Write it plainly")
    return name


def _chart() -> Generator[Question, Any, list[tuple[str, str]]]:
    """The size chart: how many shells, the first band, and the others or the step."""
    part = "The size chart"
    count = yield Question(part, "How many shell sizes does it have?", "", _count)
    bands = [
        (
            yield Question(
                part,
                f"Smallest shell: {BAND_EXAMPLE}",
                "",
                lambda text: span(text, BAND_MM, BAND_EXAMPLE),
            )
        )
    ]
    while len(bands) < count:
        number, next_one = len(bands) + 1, _next_band(bands)
        rest = ", and so on up" if number < count else ""
        typed = yield Question(
            part,
            f"Shell {number}: both ends of its band",
            f"{next_one[0]} to {next_one[1]}{rest}",
            partial(_band_after, before=bands[-1]),
        )
        bands.append(typed or next_one)
        while typed is None and len(bands) < count:
            bands.append(_next_band(bands))
    return bands


def _count(text: str) -> int:
    right = f"Write a whole number from 1 to {MOST_SHELLS}"
    if not text.strip().isdecimal():
        raise AnswerError(f'"{text.strip()}" is no number of shells', right)
    count = int(text)
    if not 1 <= count <= MOST_SHELLS:
        raise AnswerError(f"{count} shells are too {'few' if count < 1 else 'many'}", right)
    return count


def _next_band(bands: Sequence[tuple[str, str]]) -> tuple[str, str]:
    """The band that follows where the last one ends, as wide as that."""
    low, high = (parse_length(end) for end in bands[-1])
    end = 2 * high - low
    metric = bands[-1][1].endswith(("mm", "cm"))
    return bands[-1][1], f"{end:g} mm" if metric else inches(end, denominator=16, mark=" in")


def _band_after(text: str, before: tuple[str, str]) -> tuple[str, str] | None:
    """A band whose ends lie above those of the one before; None where it follows by itself."""
    if not text.strip():
        return None
    band = span(text, BAND_MM, BAND_EXAMPLE)
    for now, then in zip(band, before, strict=True):
        if parse_length(now) <= parse_length(then):
            raise AnswerError(
                f"{now} does not lie above the {then} of the shell before",
                "Both ends must grow from shell to shell; write back to correct the one before",
            )
    return band


def _pads(place: str, front: DraftPads | None) -> Generator[Question, Any, DraftPads | None]:
    """The pads of one place, and which of them the helmet comes with."""
    part = "The pads, as written on their bags"
    may_copy = front is not None
    labels = yield Question(
        part,
        f"{place.capitalize()} pad: its thicknesses, or none",
        "the same as the front pad" if may_copy else "",
        lambda text: _thicknesses(text, may_copy=may_copy),
    )
    if labels is None:
        return front
    if not labels:
        return None
    delivered = yield Question(
        part,
        f"{place.capitalize()} pad: which of them does the helmet come with?",
        "not known",
        lambda text: one_of(text, labels) if text.strip() else "",
    )
    return DraftPads(labels, delivered)


def _thicknesses(text: str, *, may_copy: bool) -> tuple[str, ...] | None:
    """Thicknesses; none at all where there is no pad; None where they are the front pad's."""
    word = text.strip().lower()
    if not word and may_copy:
        return None
    if not word:
        raise AnswerError("there is no thickness", PAD_EXAMPLE)
    return () if word in ("none", "no") else thicknesses(text, PAD_MM, PAD_EXAMPLE)


def _insides(count: int) -> Generator[Question, Any, list[dict[str, str]]]:
    """What calipers say of every shell."""
    shells: list[dict[str, str]] = []
    for number in range(1, count + 1):
        found: dict[str, str] = {}
        for key, (words, ends) in INSIDES.items():
            before = _last(shells, key) if key in _GROWS else None
            typed = yield Question(
                "The insides",
                f"Shell {number}: {words}",
                "left out",
                partial(_inside, ends=ends, before=before),
            )
            found |= {key: typed} if typed else {}
        shells.append(found)
    return shells


def _last(shells: Sequence[dict[str, str]], key: str) -> str | None:
    """The last shell's number of that key that was given."""
    return next((shell[key] for shell in reversed(shells) if key in shell), None)


def _inside(text: str, ends: tuple[float, float], before: str | None) -> str:
    """One inside number as written, or nothing."""
    if not text.strip():
        return ""
    right = (
        f"Write a length such as 8 7/8 or 225 mm, from {inches(ends[0])} to {inches(ends[1])} in"
    )
    size = length_mm(text, ends, right)
    if before is not None and size < parse_length(before):
        raise AnswerError(
            f"{with_unit(text)} is smaller than the {before} of a smaller shell",
            "Measure both again; write back to correct the one before",
        )
    return with_unit(text)


def asked(answers: Sequence[str]) -> Question | SheetDraft:
    """The question that comes after these answers, or the draft where there is none.

    Raises
    ------
    AnswerError
        Where the last of the answers cannot be taken.
    """
    going = interview()
    question = next(going)
    for answer in answers:
        read = question.read(answer)
        try:
            question = going.send(read)
        except StopIteration as done:
            draft: SheetDraft = done.value
            return draft
    return question
