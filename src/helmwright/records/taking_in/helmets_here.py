"""What the room knows of its helmets, for a list that is to be taken in."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from uuid import UUID

from helmwright.catalogue import ModelSheet
from helmwright.records.kinds.things import HelmetFields


@dataclass(frozen=True, slots=True)
class HelmetHere:
    """A helmet that is kept."""

    id: UUID
    code: str
    digest: str
    shell: int
    store: UUID
    fields: HelmetFields
    pads: Mapping[str, str]
    is_retired: bool = False


@dataclass(frozen=True, slots=True)
class RoomHere:
    """Models, stores and helmets of the room.

    Parameters
    ----------
    sheets
        The current sheet of each model, by its digest.
    stores
        ID and name of each.
    helmets
        All of them, retired ones too.
    """

    sheets: Mapping[str, ModelSheet]
    stores: Mapping[UUID, str]
    helmets: Sequence[HelmetHere]
