"""Face guards, chin straps and hardware, and which of them go together."""

from dataclasses import dataclass
from enum import StrEnum

from helmwright.catalogue.face_places import BarPlace, FaceArea, Snap


class Position(StrEnum):
    """Who a face guard is made for, in the game's own words."""

    OFFENSIVE_LINE = "offensive line"
    DEFENSIVE_LINE = "defensive line"
    LINEBACKER = "linebacker"
    DEFENSIVE_BACK = "defensive back"
    TIGHT_END = "tight end"
    RECEIVER = "receiver"
    RUNNING_BACK = "running back"
    QUARTERBACK = "quarterback"
    KICKER = "kicker"
    PUNTER = "punter"


@dataclass(frozen=True, slots=True)
class FaceGuard:
    """A face guard, described by what it covers and leaves open.

    Parameters
    ----------
    name
        Its name on the sheet.
    covers, leaves_open
        The parts of the face behind a bar, and those left open; together all of `FaceArea`.
    bars
        How many bars run across.
    upright
        Whether a bar runs up the middle above the nose.
    wires
        1 where the bars are single wire, 2 where they are doubled.
    glasses
        Whether a player with glasses can wear it.
    positions
        Who it is made for; empty for everybody.
    shells
        The shell numbers it goes on.
    mass_kg, price_usd, part_number
        What it weighs [kg], costs and is ordered by, where the sheet says so.
    places
        Where its bars cross the middle plane, top to bottom; empty where the sheet is silent.
    bar_mm
        How thick a bar is [mm]; None where the sheet is silent.
    mass_center
        Its center of mass, from the middle of the front edge; None where the sheet is silent.
    side_opening_mm
        Where the guard's sides come nearest before the eyes: ahead of the front edge, and clear
        across from side to side [mm]; None where the sheet is silent.
    """

    name: str
    covers: tuple[FaceArea, ...]
    leaves_open: tuple[FaceArea, ...]
    bars: int
    upright: bool
    wires: int
    glasses: bool
    positions: tuple[Position, ...]
    shells: tuple[int, ...]
    mass_kg: float | None = None
    price_usd: float | None = None
    part_number: str = ""
    places: tuple[BarPlace, ...] = ()
    bar_mm: float | None = None
    mass_center: BarPlace | None = None
    side_opening_mm: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class ChinStrap:
    """A chin strap.

    Parameters
    ----------
    name
        Its name on the sheet.
    points
        How many places it fastens to the shell: 4 or 6.
    cup
        "soft" or "hard".
    sizes
        The sizes that it comes in, in the sheet's words; empty for one size.
    shells
        The shell numbers it goes on.
    price_usd, part_numbers
        What one costs, and the part number of each size.
    snaps
        Where it fastens on one side, high to low, half as many as points; empty where the sheet is
        silent.
    across_mm
        From snap to snap across the shell [mm]; None where the sheet is silent.
    cup_mm
        The cup from edge to edge along the straps [mm]; None where the sheet is silent.
    chin_arcs_mm
        For each size, the chin arcs that it is for [mm]; empty where the sheet is silent.
    """

    name: str
    points: int
    cup: str
    sizes: tuple[str, ...]
    shells: tuple[int, ...]
    price_usd: float | None = None
    part_numbers: tuple[str, ...] = ()
    snaps: tuple[Snap, ...] = ()
    across_mm: float | None = None
    cup_mm: float | None = None
    chin_arcs_mm: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Hardware:
    """Clips, screws, T-nuts and the like.

    Parameters
    ----------
    name
        Its name on the sheet.
    kind
        One of `HARDWARE_KINDS`.
    place
        Where on the helmet.
    count
        How many one helmet takes.
    price_usd, part_number
        What one costs, and what it is ordered by.
    """

    name: str
    kind: str
    place: str
    count: int
    price_usd: float | None = None
    part_number: str = ""


HARDWARE_KINDS = ("clip", "screw", "T-nut", "washer", "snap", "buckle", "grommet", "other")


@dataclass(frozen=True, slots=True)
class Exclusion:
    """Parts that must not be in one helmet together, and why."""

    parts: tuple[str, ...]
    why: str
