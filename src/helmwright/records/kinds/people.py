"""What is said of players, those who answer for them, staff and devices."""

from datetime import date
from typing import Annotated, Literal, Self
from uuid import UUID

from pydantic import AfterValidator, AwareDatetime, Field, model_validator

from helmwright.anatomy import MEASURE_KEYS, Over
from helmwright.records.kinds.payload import PartialPayload, Payload, UnfitError, of_a_clock
from helmwright.records.kinds.roles import FITTERS
from helmwright.records.models.people import Role


def known_measure(key: str) -> str:
    """The key of a measure that the program knows."""
    if key not in MEASURE_KEYS:
        raise ValueError(f"no measure; one of {', '.join(MEASURE_KEYS)} would be right")
    return key


class TeamOpened(Payload):
    """A team of the program."""

    KIND = "team opened"
    team: UUID
    name: str = Field(min_length=1, max_length=80)


class SeasonOpened(Payload):
    """A season begins; the one before is closed."""

    KIND = "season opened"
    season: UUID
    team: UUID
    name: str = Field(min_length=1, max_length=40)


class StaffJoined(Payload):
    """Somebody works in the room from now on, and signs in with a name of their own."""

    KIND = "staff joined"
    PRIVATE = frozenset({"name", "username"})
    staff: UUID
    username: str = Field(default="", max_length=40, description="Empty where it was erased.")
    name: str = Field(default="", max_length=80)
    role: Role

    def whose(self) -> UUID:
        """The member of the staff."""
        return self.staff

    def refuse_unfit(self) -> None:
        """Nobody signs in without a name to sign in with."""
        if not self.username:
            raise UnfitError("there is no name to sign in with; give one")


class StaffErased(Payload):
    """Both names of somebody who is gone are erased; what was done stays, and that one did it."""

    KIND = "staff erased"
    staff: UUID


class StaffChanged(Payload):
    """Another role or name, or gone."""

    KIND = "staff changed"
    PRIVATE = frozenset({"name"})
    staff: UUID
    name: str | None = Field(default=None, max_length=80)
    role: Role | None = None
    is_active: bool | None = None

    def whose(self) -> UUID:
        """The member of the staff."""
        return self.staff


class DeviceEnrolled(Payload):
    """A tablet or phone that the room knows from now on."""

    KIND = "device enrolled"
    device: UUID
    name: str = Field(min_length=1, max_length=40)
    store: UUID | None = None


class DeviceChanged(PartialPayload):
    """Another name, or another store or none; what is left out stays as it is."""

    KIND = "device changed"
    device: UUID
    name: str = Field(default="", min_length=1, max_length=40)
    store: UUID | None = None


class DeviceRevoked(Payload):
    """It is lost or given away: it is heard no more."""

    KIND = "device revoked"
    device: UUID


class PlayerFields(Payload):
    """What is kept of a player; what is left out is not known."""

    number: str = Field(default="", max_length=8)
    name: str = Field(default="", max_length=120)
    position: str = Field(default="", max_length=40)
    sex: Literal["", "male", "female"] = ""
    birth_year: int | None = Field(default=None, ge=1940, le=2100)
    school_class: str = Field(default="", max_length=20)
    stature_mm: float | None = Field(default=None, gt=500, lt=2600)
    weight_kg: float | None = Field(default=None, gt=10, lt=300)
    glasses: bool | None = None
    worn: tuple[Over, ...] = ()


PERSONAL = frozenset(PlayerFields.model_fields)


class PlayerAdded(PlayerFields):
    """A player is on the roster."""

    KIND = "player added"
    PRIVATE = PERSONAL
    player: UUID
    team: UUID
    take_in: UUID | None = None


class PlayerChanged(PartialPayload, PlayerFields):
    """What is kept of the player is another from now on; what is left out stays as it is."""

    KIND = "player changed"
    ROLES = FITTERS
    PRIVATE = PERSONAL
    player: UUID
    take_in: UUID | None = None


class PlayerWears(Payload):
    """What is worn under the helmet today, and glasses; nothing else of the player changes."""

    KIND = "player wears"
    ROLES = FITTERS
    PRIVATE = frozenset({"worn", "glasses"})
    player: UUID
    worn: tuple[Over, ...] = ()
    glasses: bool | None = None


class PlayerLeft(Payload):
    """The player is not on the roster any more; the record stays."""

    KIND = "player left"
    player: UUID


class PlayerCameBack(Payload):
    """The player is on the roster again."""

    KIND = "player came back"
    player: UUID


def known_day(text: str) -> str:
    """A day of the calendar, as written."""
    date.fromisoformat(text)
    return text


class RetentionHeld(Payload):
    """Nothing of this player is erased before the day; null lifts it."""

    KIND = "retention held"
    player: UUID
    until: (
        Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}$"), AfterValidator(known_day)] | None
    ) = None
    why: str = Field(default="", max_length=200)
    PRIVATE = frozenset({"why"})


class PersonErased(Payload):
    """Everything personal of a player is erased; a pseudonym stays."""

    KIND = "person erased"
    player: UUID


class GuardianAdded(Payload):
    """Somebody answers for a minor."""

    KIND = "guardian added"
    ROLES = FITTERS
    PRIVATE = frozenset({"name", "relation", "contact"})
    guardian: UUID
    player: UUID
    name: str = Field(default="", max_length=120)
    relation: str = Field(default="", max_length=40)
    contact: str = Field(default="", max_length=120)


class ConsentGiven(Payload):
    """Somebody agreed to a text; on paper, to the words of that paper, which the room keeps."""

    KIND = "consent given"
    ROLES = FITTERS
    consent: UUID
    player: UUID
    guardian: UUID | None = None
    about: Literal["fitting", "scan", "warning"]
    text_version: str = Field(
        default="", max_length=20, description="Of the room's own words; empty on paper."
    )
    on_paper: bool = False
    language: str = Field(default="en-US", max_length=10)

    @model_validator(mode="after")
    def _names_the_text(self) -> Self:
        if self.on_paper == bool(self.text_version):
            raise ValueError(
                "who agreed here agreed to a version of the text, and who agreed on paper to that"
                " paper; say one of the two"
            )
        return self


class ConsentWithdrawn(Payload):
    """It is taken back."""

    KIND = "consent withdrawn"
    ROLES = FITTERS
    consent: UUID
    player: UUID


class ReadingTaken(Payload):
    """One number off a tape or caliper."""

    KIND = "reading taken"
    ROLES = FITTERS
    player: UUID
    measure: Annotated[str, AfterValidator(known_measure)]
    value_mm: float = Field(gt=0, lt=1000)
    over: Over = Over.UNSTATED
    beneath: Over | None = None
    taken_at: Annotated[AwareDatetime, AfterValidator(of_a_clock)] | None = Field(
        default=None, description="Where it was read earlier than it is said."
    )
    take_in: UUID | None = None


class ReadingWithdrawn(Payload):
    """A reading was wrong; it corrects the entry that took it, and a new one may follow."""

    KIND = "reading withdrawn"
    ROLES = FITTERS
    player: UUID
    reading: UUID
