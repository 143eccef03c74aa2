"""A form that was opened some time ago: what it changes, and what others changed meanwhile."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

Fields = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Meanwhile:
    """A field that a form changes and somebody else has changed since it was opened.

    Parameters
    ----------
    name, now
        The field, and what stands in it by now.
    by, at
        Who said so and when; empty and None where the ledger does not tell.
    """

    name: str
    now: Any
    by: str = ""
    at: datetime | None = None


class MeanwhileError(Exception):
    """Nothing was done: somebody has to say which of two words holds.

    Parameters
    ----------
    found
        The fields that were changed meanwhile.
    """

    def __init__(self, found: Sequence[Meanwhile]) -> None:
        self.found = tuple(found)
        super().__init__(", ".join(each.name for each in found))


def changed_fields(opened: Fields, said: Fields) -> dict[str, Any]:
    """Those of the fields that are said to be another than they were when the form was opened."""
    return {name: value for name, value in said.items() if value != opened[name]}


def clashing(opened: Fields, now: Fields, changed: Fields) -> tuple[str, ...]:
    """The changed fields that are by now neither as they were nor as they are to be."""
    return tuple(name for name, value in changed.items() if now[name] not in (opened[name], value))
