"""How the maker wants a part changed, where the sheet says so."""

from dataclasses import dataclass
from enum import StrEnum

from helmwright.catalogue.zone import Zone


class PartKind(StrEnum):
    """Parts that are changed each in its own way."""

    CROWN = "crown pad"
    RING = "front, rear or side pad"

    NAPE = "nape pad"
    JAW = "jaw pad"
    AIR = "air cell"
    STRAP = "chin strap"
    GUARD = "face guard"
    SHELL = "shell"

    @classmethod
    def of(cls, zone: Zone) -> "PartKind":
        """The kind of a zone's pad."""
        return _OF_ZONE[zone]


_OF_ZONE = {
    Zone.CROWN: PartKind.CROWN,
    Zone.FRONT: PartKind.RING,
    Zone.REAR: PartKind.RING,
    Zone.LEFT: PartKind.RING,
    Zone.RIGHT: PartKind.RING,
    Zone.NAPE: PartKind.NAPE,
    Zone.JAW_LEFT: PartKind.JAW,
    Zone.JAW_RIGHT: PartKind.JAW,
}


@dataclass(frozen=True, slots=True)
class ChangeInstruction:
    """The maker's way to change a kind of part, instead of the usual one.

    Parameters
    ----------
    part
        Which kind.
    steps
        What to do, one thing after the other, in the words of whoever typed the sheet.
    """

    part: PartKind
    steps: tuple[str, ...]
