"""The messages that a program may send in a dialogue of lines, and how they are read."""

import json
from typing import Annotated, Any, Literal

from pydantic import Field, TypeAdapter, ValidationError

from helmwright.visit.wire_fault import WireError, first_fault
from helmwright.visit.wire_form import BuildForm, Form, ShelfForm

VERSION: Literal[1] = 1
"""Of the dialogue: another number where what is sent or answered changes its meaning."""

Written = str | float | int
"""A cell as a person writes it, or a number."""

Said = dict[str, Written | tuple[Written, ...]]
"""Cells under a roster's headings; several for repeats of a reading."""


class StartMessage(Form):
    """A player and a helmet; only where the command line has not named them."""

    message: Literal["start"]
    version: Literal[1] = 1
    player: Said = Field(
        description="Under the roster's headings, such as name, tape, length (mm), worn, build now."
    )
    model: str | None = Field(default=None, description="A model sheet in the package.")
    sheet: str | None = Field(default=None, description="The text of a model sheet (TOML).")
    stock: tuple[ShelfForm, ...] | None = Field(
        default=None, description="Parts at this store; null where everything listed is there."
    )
    current: BuildForm | None = Field(
        default=None, description="What is in the helmet now, if not said under build now."
    )
    seed: int | None = Field(default=None, ge=0, description="Of every draw.")
    units: Literal["in", "cm", "mm"] = Field(default="in", description="Of bare numbers.")
    male_share: float | None = Field(default=None, ge=0, le=1)


class PutOnMessage(Form):
    """A build is on the head: the proposed one, or another for a reason."""

    message: Literal["put on"]
    build: BuildForm | None = Field(default=None, description="Null for the proposed one.")
    reason: str = Field(default="", description="Why another; it is kept.")


class FindingForm(Form):
    """The answer to one check: a word, or the length that was read."""

    check: str
    word: str | None = None
    value_mm: float | None = None
    value: str | None = Field(
        default=None,
        description="The length as written: 1 1/8, 28 mm, 1 finger; inches if bare.",
    )


class FindingsMessage(Form):
    """Answers to some or all of the checks that are asked, in any order."""

    message: Literal["findings"]
    findings: tuple[FindingForm, ...] = Field(min_length=1)


class MeasuredMessage(Form):
    """Readings that were taken in the visit, asked for or not."""

    message: Literal["measured"]
    readings: Said = Field(description="Under the roster's headings, such as length.")


class SkipMessage(Form):
    """The measure that is asked for is not taken."""

    message: Literal["skip"]


class NotHereMessage(Form):
    """A part of the proposed build is not at this store, whatever was counted."""

    message: Literal["not here"]
    place: str = Field(description="The zone that it is for.")
    size: str = Field(description="Thickness as written on the bag.")


class UndoMessage(Form):
    """The last thing that was said is taken back."""

    message: Literal["undo"]


class PauseMessage(Form):
    """The visit is interrupted."""

    message: Literal["pause"]


class ResumeMessage(Form):
    """The visit goes on."""

    message: Literal["resume"]


class SymptomMessage(Form):
    """A symptom of injury or illness; it ends the visit."""

    message: Literal["symptom"]
    words: str


class StopMessage(Form):
    """The fitter ends the visit."""

    message: Literal["stop"]
    reason: str = ""


class StateMessage(Form):
    """Asks for the whole visit; nothing changes."""

    message: Literal["state"]


InMessage = Annotated[
    StartMessage
    | PutOnMessage
    | FindingsMessage
    | MeasuredMessage
    | SkipMessage
    | NotHereMessage
    | UndoMessage
    | PauseMessage
    | ResumeMessage
    | SymptomMessage
    | StopMessage
    | StateMessage,
    Field(discriminator="message"),
]
"""Anything that may be sent."""

IN_MESSAGE: TypeAdapter[Any] = TypeAdapter(InMessage)


def read_message(line: str) -> Any:
    """The message of one line.

    Raises
    ------
    WireError
        For a line that is no JSON object, or no message; the words say what would be right.
    """
    try:
        data = json.loads(line, object_pairs_hook=_once, parse_constant=_no_number)
    except RecursionError as error:
        wrong = "this line nests lists or objects too deep"
        raise WireError(wrong, "", "send one of the messages of the schema") from error
    except ValueError as error:
        raise WireError(
            f"this line is no JSON ({error})", "", "send one JSON object a line, in UTF-8"
        ) from error
    if not isinstance(data, dict):
        raise WireError("this line is no object", "", 'send an object, {"message": ...}')
    try:
        return IN_MESSAGE.validate_json(json.dumps(data))
    except ValidationError as error:
        raise first_fault(error, "message") from error


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object, refused where it names a field twice: nobody could say which one is meant."""
    found = dict(pairs)
    if len(found) != len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise ValueError(f'the field "{twice}" stands twice in one object')
    return found


def _no_number(word: str) -> Any:
    raise ValueError(f"{word} is no number")
