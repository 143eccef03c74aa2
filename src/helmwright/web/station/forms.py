"""What a station sends, held to its form before anything is done with it."""

from typing import Annotated, Any
from uuid import UUID

from pydantic import AfterValidator, AwareDatetime, BaseModel, ConfigDict, Field, ValidationError

from helmwright.anatomy import Over
from helmwright.records.ids import VERSION
from helmwright.records.kinds.payload import of_a_clock

MOST_ENTRIES = 500
"""In one batch; a station sends the rest in the next."""


class Form(BaseModel):
    """Nothing unknown goes in."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class EntriesForm(Form):
    """A batch, in order; each is looked at by itself."""

    entries: list[Any] = Field(max_length=MOST_ENTRIES)


class EntryForm(Form):
    """One thing that happened."""

    id: UUID
    kind: str = Field(max_length=40)
    at: Annotated[AwareDatetime, AfterValidator(of_a_clock)] = Field(
        description="By the clock of the station."
    )
    by: UUID = Field(description="Who said it.")
    payload: dict[str, Any]
    corrects: UUID | None = None


class ReadingForm(Form):
    """One reading, to be held against others."""

    measure: str = Field(max_length=40)
    value_mm: float = Field(gt=0, lt=1000)
    over: Over = Over.UNSTATED
    beneath: Over | None = None


class LookOverForm(Form):
    """Readings of one player, to be held against each other."""

    player: UUID
    readings: list[ReadingForm] = Field(max_length=60)


def is_by_time(entry: UUID) -> bool:
    """Whether an ID is of the version that entries have."""
    return entry.version == VERSION


def fault_of(error: ValidationError) -> dict[str, str]:
    """The first thing that is wrong: what, where, and what would be right."""
    first = error.errors(include_url=False)[0]
    where = ", ".join(str(step) for step in first["loc"])
    said = first["msg"].removeprefix("Value error, ")
    what, _, right = said.partition("; ")
    return {"what": what, "where": where, "right": right}
