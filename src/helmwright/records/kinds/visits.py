"""What is said in a fit visit, and what is given out after it."""

from typing import Annotated, Any, Literal, Self
from uuid import UUID

from pydantic import Field, model_validator

from helmwright.records.kinds.payload import Payload, UnfitError
from helmwright.records.kinds.roles import FITTERS, HANDS
from helmwright.records.kinds.visit_event import checked_event, parted, whole
from helmwright.records.signature import is_signature

Coordinate = Annotated[int | float, Field(ge=-100_000, le=100_000)]
Drawn = Annotated[list[list[tuple[Coordinate, Coordinate]]], Field(max_length=2_000)]
Signature = Drawn | Annotated[str, Field(max_length=120)]
"""Strokes, or a typed name; empty where it was erased."""


class VisitBegun(Payload):
    """A player is fitted, at a store, with a helmet model.

    The visit's own first event follows as "visit said" at place 0, by the program, with the
    readings and the shelf as they are then; its `who` is the player's ID.
    """

    KIND = "visit begun"
    ROLES = FITTERS
    visit: UUID
    player: UUID
    store: UUID
    sheet: str
    helmet: UUID | None = Field(default=None, description="Where a certain one is to be fitted.")
    cleared: bool = Field(
        default=False,
        description="Somebody said that medical staff let this player be fitted again, after a"
        " visit that ended for a symptom.",
    )


class VisitSaid(Payload):
    """One more event of a visit, by a person or by the program.

    `place` is where in the visit it belongs: the number of events before it. An event whose place
    is taken already came too late and is set aside.
    """

    KIND = "visit said"
    ROLES = FITTERS
    PRIVATE = frozenset({"words", "stated", "worn"})
    visit: UUID
    player: UUID
    place: int = Field(ge=0)
    event: dict[str, Any] = Field(
        description="As docs/reference/visit-lines.md writes it, without what is private."
    )
    words: str = Field(
        default="", max_length=500, description="The `words` or the `reason` of the event."
    )
    stated: dict[str, Any] = Field(
        default_factory=dict, description="What is known of the player, where a visit starts."
    )
    worn: tuple[str, ...] | None = Field(
        default=None, description="What is worn on the head, where a visit starts."
    )

    @model_validator(mode="before")
    @classmethod
    def _parted(cls, data: Any) -> Any:
        """What is private is moved out of the event, wherever it was said."""
        return parted(data) if isinstance(data, dict) else data

    @model_validator(mode="after")
    def _checked(self) -> Self:
        checked_event(self.event, self.words, self.stated, self.worn)
        return self

    @property
    def whole_event(self) -> dict[str, Any]:
        """The event with what is private."""
        return whole(self.event, self.words, self.stated, self.worn)


class VisitTakenOver(Payload):
    """Another station goes on with a visit."""

    KIND = "visit taken over"
    ROLES = FITTERS
    visit: UUID
    player: UUID


class HelmetReserved(Payload):
    """One helmet is meant for the visit; of two that ask, the first has it."""

    KIND = "helmet reserved"
    ROLES = FITTERS
    visit: UUID
    helmet: UUID


class PartReserved(Payload):
    """A part is meant for the visit; of two that ask for the last one, the first has it."""

    KIND = "part reserved"
    ROLES = FITTERS
    visit: UUID
    store: UUID
    zone: str
    size: str = Field(max_length=60)


class ReservationsReleased(Payload):
    """What a visit had spoken for and not used is free again."""

    KIND = "reservations released"
    ROLES = FITTERS
    visit: UUID


class Acknowledged(Payload):
    """The warning was read aloud and explained, and both signed.

    A signature is the strokes as drawn: a list of lists of [x, y] in hundredths of the field's
    height, or the typed name where somebody cannot draw. Both are there when it is said.
    """

    KIND = "acknowledged"
    ROLES = FITTERS
    PRIVATE = frozenset({"player_signature", "fitter_signature"})
    player: UUID
    helmet: UUID | None = None
    visit: UUID | None = None
    text_version: str = Field(max_length=20)
    language: str = Field(default="en-US", max_length=10)
    signed_by: Literal["player", "guardian"] = "player"
    showed: tuple[str, ...] = Field(default=(), description="What the player showed or read.")
    player_signature: Signature = ""
    fitter_signature: Signature = ""

    def refuse_unfit(self) -> None:
        """Who did not sign did not acknowledge."""
        for who, said in (
            (self.signed_by, self.player_signature),
            ("fitter", self.fitter_signature),
        ):
            if not is_signature(said):
                raise UnfitError(
                    f"there is no signature of the {who}; sign with a finger, or type the name"
                    " with two letters at least"
                )


class HelmetIssued(Payload):
    """A player holds a helmet from now on."""

    KIND = "helmet issued"
    ROLES = FITTERS
    helmet: UUID
    player: UUID
    visit: UUID | None = None
    purpose: Literal["game", "practice", "game and practice", "twin"] = "game and practice"
    holds_build: bool = Field(
        default=False,
        description="Somebody looked: the accepted build is in it, whatever the records have.",
    )


class HelmetReturned(Payload):
    """It is back."""

    KIND = "helmet returned"
    ROLES = HANDS
    helmet: UUID
    store: UUID
    condition: str = Field(default="", max_length=200)
