"""What is said of model sheets, stores, helmets and parts."""

from datetime import date
from typing import Literal, Self
from uuid import UUID

from pydantic import Field, model_validator

from helmwright.records.kinds.payload import PartialPayload, Payload
from helmwright.records.kinds.roles import FITTERS, HANDS

_STORES = {
    "received": (False, True),
    "moved": (True, True),
    "scrapped": (True, False),
    "taken in": (False, True),
}
"""Whether a movement names the store that parts leave, and the one they come to."""

_STORES_TOLD = {
    "received": "name the store they come to, and no other",
    "moved": "name the store they leave and the one they come to",
    "scrapped": "name the store they leave, and no other",
    "taken in": "name the store they come to, and no other",
}


class SheetAdded(Payload):
    """A model sheet, whole; the digest is of its content."""

    KIND = "sheet added"
    digest: str = Field(pattern=r"^[0-9a-f]{64}$")
    text: str


class StoreOpened(Payload):
    """A place that holds parts."""

    KIND = "store opened"
    store: UUID
    name: str = Field(min_length=1, max_length=60)


class HelmetFields(Payload):
    """What is known of a helmet beside its build."""

    serial: str = Field(default="", max_length=60)
    color: str = Field(default="", max_length=40)
    made_on: date | None = None
    bought_on: date | None = None
    first_certified_on: date | None = None
    recertified_on: date | None = None
    interval_months: int | None = Field(default=None, ge=1, le=240)
    life_years: int | None = Field(default=None, ge=1, le=40)
    guard: str = Field(default="", max_length=60)
    strap: str = Field(default="", max_length=60)


class HelmetAdded(HelmetFields):
    """A helmet of the program."""

    KIND = "helmet added"
    helmet: UUID
    code: str = Field(min_length=1, max_length=20, pattern=r"^[A-Z0-9][A-Z0-9-]*$")
    sheet: str
    shell: int = Field(ge=1)
    store: UUID
    pads: dict[str, str] = Field(
        default_factory=dict, description="Zone to pad label; as delivered where left out."
    )
    take_in: UUID | None = None


class HelmetChanged(PartialPayload, HelmetFields):
    """What is known of it beside its build is another from now on; what is left out stays."""

    KIND = "helmet changed"
    helmet: UUID
    take_in: UUID | None = None


class HelmetHeld(Payload):
    """It is not to be issued until the hold is lifted."""

    KIND = "helmet held"
    ROLES = HANDS
    helmet: UUID
    why: str = Field(min_length=1, max_length=200)


class HelmetReleased(Payload):
    """The hold is lifted."""

    KIND = "helmet released"
    helmet: UUID


class HelmetRetired(Payload):
    """It is never issued again."""

    KIND = "helmet retired"
    helmet: UUID
    why: str = Field(min_length=1, max_length=200)


class HelmetMoved(Payload):
    """It lies in another store now."""

    KIND = "helmet moved"
    ROLES = HANDS
    helmet: UUID
    store: UUID
    take_in: UUID | None = None


class PartsMoved(Payload):
    """Parts came in, went out for good, or went from one store to another."""

    KIND = "parts moved"
    ROLES = HANDS
    sheet: str
    place: str = Field(max_length=20)
    size: str = Field(max_length=60)
    quantity: int = Field(ge=1, le=100_000)
    from_store: UUID | None = None
    to_store: UUID | None = None
    why: Literal["received", "moved", "scrapped", "taken in"]
    lot: str = Field(default="", max_length=60)
    take_in: UUID | None = None

    @model_validator(mode="after")
    def _names_the_stores(self) -> Self:
        named = (self.from_store is not None, self.to_store is not None)
        if named != _STORES[self.why]:
            raise ValueError(f"parts that are {self.why} {_STORES_TOLD[self.why]}")
        if self.from_store == self.to_store:
            raise ValueError("parts are moved from one store to another")
        return self


class PartsCounted(Payload):
    """So many were there when somebody counted; the difference becomes a movement."""

    KIND = "parts counted"
    ROLES = HANDS
    store: UUID
    sheet: str
    place: str = Field(max_length=20)
    size: str = Field(max_length=60)
    count: int = Field(ge=0, le=100_000)
    take_in: UUID | None = None


class PartsChanged(Payload):
    """Pads of a helmet were changed with the hands; stock moves with it."""

    KIND = "parts changed"
    ROLES = HANDS
    helmet: UUID
    store: UUID
    pads: dict[str, str] = Field(min_length=1, description="Zone to the label of what is in now.")
    why: str = Field(default="", max_length=200)


class FaceChanged(Payload):
    """Another face guard or chin strap is on it."""

    KIND = "face changed"
    ROLES = HANDS
    helmet: UUID
    store: UUID
    guard: str | None = Field(default=None, max_length=60)
    strap: str | None = Field(default=None, max_length=60)


class TakenIn(Payload):
    """A file was taken in; the entries that it made follow, and name it."""

    KIND = "taken in"
    ROLES = FITTERS
    take_in: UUID
    what: Literal["roster", "helmets", "stock"]
    file_name: str = Field(max_length=120)
    rows: int = Field(ge=0, le=1_000_000)
    file_digest: str = Field(default="", max_length=64, description="SHA-256 of the file.")


class TakeInUndone(Payload):
    """Everything that a file made is taken back."""

    KIND = "take-in undone"
    take_in: UUID
