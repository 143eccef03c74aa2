"""The maker's own fitting instructions, where they differ from the default."""

from dataclasses import dataclass
from enum import StrEnum


class FitTopic(StrEnum):
    """What a fitting instruction is about."""

    BETWEEN_SIZES = "between sizes"
    HAIR = "hair"
    PUTTING_ON = "putting on"
    BROW_HEIGHT = "brow height"
    FRONT = "front"
    CROWN = "crown"
    SIDES = "sides"
    REAR = "rear"
    NAPE = "nape"
    EAR_OPENINGS = "ear openings"
    JAW_PADS = "jaw pads"
    CHIN_STRAP = "chin strap"
    FACE_GUARD_DISTANCE = "face guard distance"
    SIGHT = "sight"
    MOVEMENT = "movement"
    WEARING_TIME = "wearing time"
    AIR_CELLS = "air cells"
    ORDER = "order of checks"


MEASURED_TOPICS = (FitTopic.BROW_HEIGHT, FitTopic.FACE_GUARD_DISTANCE)
"""The topics whose instruction may carry an accepted interval of lengths."""


@dataclass(frozen=True, slots=True)
class Instruction:
    """One instruction that wins over the default.

    Parameters
    ----------
    topic
        What it is about.
    says
        The instruction, in the words of whoever typed the sheet.
    accept_mm
        The accepted interval [mm], where the instruction gives one.
    """

    topic: FitTopic
    says: str
    accept_mm: tuple[float, float] | None = None
