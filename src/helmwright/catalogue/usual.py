"""What a helmet usually has where its sheet says nothing: pads, foams, masses and insides.

The usual insides follow from one idea: the build that a shell is delivered with fits the middle
head of the shell's band. The middle head comes from the surveys, the pads from their bags.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import cos, hypot, log, radians, sin

import numpy as np
import numpy.typing as npt

from helmwright.belief import Normal, Observation
from helmwright.catalogue.foam import Foam
from helmwright.catalogue.foams import CUSHION, VINYL_NITRILE
from helmwright.catalogue.hollow import BOTTOM_MM, jaw_widths_mm
from helmwright.catalogue.insides import INSIDE_NUMBERS, InsideBelief, quantity
from helmwright.catalogue.sheet import ModelSheet, PadKind, Seat, Shell, ShellForm
from helmwright.catalogue.window import LOOSE_BELOW, TIGHT_ABOVE, pad_stroke_mm
from helmwright.catalogue.zone import Zone
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, NIOSH_2003, SNYDER_1977, US_ARMY_2012

Floats = npt.NDArray[np.float64]

USUAL_FOAM_SCATTER = Figure(
    0.35, "1", ASSUMED, note="how far an unknown soft foam may be from the cushion's curve"
)

USUAL_FOAM = Foam(
    key="usual",
    strain=CUSHION.strain,
    stress_kpa=CUSHION.stress_kpa,
    beyond_kpa=CUSHION.beyond_kpa,
    source=CUSHION.source,
    scatter=USUAL_FOAM_SCATTER.value,
)
"""The cushion's curve with a wide scatter: a soft foam of which nothing is known."""

USUAL_MASS = Figure(2.0, "kg", ASSUMED, note="shell with pads and face guard, adult")
USUAL_YOUTH_MASS = Figure(1.5, "kg", ASSUMED, note="the same, youth")
USUAL_MASS_CENTER = (
    Figure(14.0, "mm", ASSUMED, note="center of mass ahead of the ear openings"),
    Figure(55.0, "mm", ASSUMED, note="center of mass above the ear openings"),
)

USUAL_STRAP_PULL = (
    Figure(8.0, "N", ASSUMED, note="pull of the fastened strap on the shell, forward"),
    Figure(11.0, "N", ASSUMED, note="the same, down"),
)

LAST_YOUTH_AGE = 15.0
"""A sheet whose ages have their middle below this is a youth sheet [years]; assumed."""


@dataclass(frozen=True, slots=True)
class UsualPad:
    """What a zone's pad is like where the sheet does not say; all assumed.

    Parameters
    ----------
    area
        That bears on the head [cm2].
    fit_layer
        Thickness of the soft layer [mm].
    seats
        Directions of the contact points.
    """

    area: Figure
    fit_layer: Figure
    seats: tuple[Seat, ...]


def _usual(area_cm2: float, fit_layer_mm: float, *seats: tuple[float, float]) -> UsualPad:
    return UsualPad(
        Figure(area_cm2, "cm2", ASSUMED, note="area of a pad that the sheet does not give"),
        Figure(fit_layer_mm, "mm", ASSUMED, note="soft layer of a pad, the same"),
        tuple(Seat(azimuth, elevation) for azimuth, elevation in seats),
    )


USUAL_PADS: Mapping[Zone, UsualPad] = {
    Zone.CROWN: _usual(80, 8, (0, 90), (45, 62), (135, 62), (225, 62), (315, 62)),
    Zone.FRONT: _usual(30, 10, (-28, 14), (0, 14), (28, 14)),
    Zone.REAR: _usual(30, 9, (152, 8), (180, 8), (208, 8)),
    Zone.LEFT: _usual(30, 9, (65, 18), (90, 18), (115, 18)),
    Zone.RIGHT: _usual(30, 9, (-65, 18), (-90, 18), (-115, 18)),
    Zone.NAPE: _usual(20, 12, (155, -28), (180, -28), (205, -28)),
    Zone.JAW_LEFT: _usual(20, 12, (62, -37), (74, -37)),
    Zone.JAW_RIGHT: _usual(20, 12, (-62, -37), (-74, -37)),
}

USUAL_ENERGY_FOAM = VINYL_NITRILE


@dataclass(frozen=True, slots=True)
class UsualHead:
    """The middle head at a reading of the trade's tape: each measure linear in it.

    Parameters
    ----------
    tape_mm
        Where the lines are pinned [mm].
    length, breadth, top, jaw
        Head length, breadth, tragion to top and width at the jaw pads there [mm], and their
        slopes [mm/mm].
    brow
        Height of the eyebrows above the ear openings [mm].
    """

    tape_mm: float
    length: tuple[Figure, float]
    breadth: tuple[Figure, float]
    top: tuple[Figure, float]
    jaw: tuple[Figure, float]
    brow: Figure

    def at(self, tape_mm: float) -> "MiddleHead":
        """The head at one reading [mm]."""
        past = tape_mm - self.tape_mm
        lines = (self.length, self.breadth, self.top, self.jaw)
        length, breadth, top, jaw = (pin.value + slope * past for pin, slope in lines)
        return MiddleHead(length, breadth, top, jaw, self.brow.value)


@dataclass(frozen=True, slots=True)
class MiddleHead:
    """Measures of one head [mm]."""

    length_mm: float
    breadth_mm: float
    top_mm: float
    jaw_mm: float
    brow_mm: float


ADULT_HEAD = UsualHead(
    tape_mm=570.0,
    length=(Figure(198.1, "mm", US_ARMY_2012, note="head length at a tape of 570"), 0.337),
    breadth=(Figure(153.5, "mm", US_ARMY_2012, note="head breadth at a tape of 570"), 0.181),
    top=(Figure(131.0, "mm", US_ARMY_2012, note="tragion to top at a tape of 570"), 0.140),
    jaw=(Figure(131.7, "mm", NIOSH_2003, note="width at the jaw pads at a tape of 570"), 0.212),
    brow=Figure(30.0, "mm", ASSUMED, note="eyebrows above the ear openings, adult"),
)
"""The adult head of an assumed roster mix, from both surveys joined and blended."""

YOUTH_HEAD = UsualHead(
    tape_mm=530.0,
    length=(Figure(187.0, "mm", SNYDER_1977, note="head length at a tape of 530, 8 to 14"), 0.249),
    breadth=(Figure(145.1, "mm", SNYDER_1977, note="head breadth, the same"), 0.166),
    top=(Figure(122.6, "mm", SNYDER_1977, note="tragion to top, the same"), 0.163),
    jaw=(Figure(113.8, "mm", ASSUMED, note="width at the jaw pads, the same"), 0.185),
    brow=Figure(30.0, "mm", ASSUMED, note="eyebrows above the ear openings, the same"),
)
"""The head of a player of 8 to 14 years."""

BROW_AIM = Figure(25.4, "mm", ASSUMED, note="front edge above the brow; an inch, common practice")
UNPADDED = Figure(12.0, "mm", ASSUMED, note="room between head and shell where there is no pad")

COMMON_SPREAD = {
    "inside_length": Figure(4.0, "mm", ASSUMED, note="usual inside length, error of all sizes, SD"),
    "inside_breadth": Figure(4.0, "mm", ASSUMED, note="usual inside breadth, the same"),
    "inside_depth": Figure(3.0, "mm", ASSUMED, note="usual inside depth, the same"),
    "jaw_width": Figure(5.0, "mm", ASSUMED, note="usual width at the jaw, the same"),
    "front_edge": Figure(3.0, "mm", ASSUMED, note="usual height of the front edge, the same"),
}
"""How far the usual numbers may be off in all sizes of a model alike, one SD."""

OWN_SHARE = Figure(
    0.4, "1", ASSUMED, note="error of one size by itself, as a share of the error of all sizes"
)
RING_TIE = Figure(
    0.3, "1", ASSUMED, note="correlation of the errors of length, breadth and width at the jaw"
)
EDGE_TIE = Figure(-0.4, "1", ASSUMED, note="correlation of the errors of depth and front edge")

NAPE_SHARE = Figure(
    1.0, "1", ASSUMED,
    note="head at the nape pad's seats, from the shell's middle, in half head lengths; about "
    "what the modeled mean head has",
)  # fmt: skip

_SIDES = {
    "inside_length": (Zone.FRONT, Zone.REAR),
    "inside_breadth": (Zone.LEFT, Zone.RIGHT),
    "jaw_width": (Zone.JAW_LEFT, Zone.JAW_RIGHT),
    "inside_depth": (Zone.CROWN,),
}


def is_youth(ages: tuple[float, float] | None) -> bool:
    """Whether a sheet's ages make it a youth sheet."""
    return ages is not None and sum(ages) / 2.0 < LAST_YOUTH_AGE


def usual_head(ages: tuple[float, float] | None, tape_mm: float) -> MiddleHead:
    """The middle head of a sheet's players at a reading of the tape [mm]."""
    return (YOUTH_HEAD if is_youth(ages) else ADULT_HEAD).at(tape_mm)


def filled_mm(pad: PadKind) -> float:
    """What a delivered pad fills between shell and head in the middle of its snug window [mm]."""
    if not pad.seats:
        return UNPADDED.value
    thickness = pad.thicknesses_mm[pad.delivered]
    ends = [pad_stroke_mm(pad, thickness, p.value) for p in (LOOSE_BELOW, TIGHT_ABOVE)]
    return thickness - sum(ends) / 2.0


def usual_numbers(head: MiddleHead, pads: Mapping[Zone, PadKind]) -> dict[str, float]:
    """Inside numbers of a shell whose delivered build fits that head [mm], by INSIDE_NUMBERS."""
    fill = {zone: filled_mm(pad) for zone, pad in pads.items()}
    front_edge = head.brow_mm + BROW_AIM.value
    return {
        "inside_length": head.length_mm + fill[Zone.FRONT] + fill[Zone.REAR],
        "inside_breadth": head.breadth_mm + fill[Zone.LEFT] + fill[Zone.RIGHT],
        "inside_depth": head.top_mm + fill[Zone.CROWN] - front_edge,
        "jaw_width": head.jaw_mm + fill[Zone.JAW_LEFT] + fill[Zone.JAW_RIGHT],
        "front_edge": front_edge,
    }


def usual_insides(heads: Mapping[int, MiddleHead], pads: Mapping[Zone, PadKind]) -> InsideBelief:
    """Belief over the insides of shells of which nothing was measured.

    Parameters
    ----------
    heads
        By shell number, smallest first: the middle head of its band.
    pads
        The pads of every zone, as delivered. Where a sheet does not say how a zone is delivered,
        the usual number may be off by a thickness step more.

    Notes
    -----
    The error of a number is `c + o`: c common to all sizes, with the spreads of `COMMON_SPREAD`
    and the correlations of `RING_TIE` and `EDGE_TIE`, and o of this size alone, `OWN_SHARE` as
    large. Every figure of the spread is assumed.
    """
    numbers = [usual_numbers(head, pads) for head in heads.values()]
    mean = [each[number] for each in numbers for number in INSIDE_NUMBERS]
    common = _common_covariance(pads)
    size = len(heads)
    alike = np.ones((size, size)) + OWN_SHARE.value**2 * np.eye(size)
    covariance = np.asarray(np.kron(alike, common), dtype=np.float64)
    names = tuple(quantity(shell, number) for shell in heads for number in INSIDE_NUMBERS)
    return InsideBelief(tuple(heads), Normal(names, np.array(mean), covariance))


def _common_covariance(pads: Mapping[Zone, PadKind]) -> Floats:
    """Covariance of the errors that all sizes share, (5, 5) [mm2]."""
    ties = np.eye(len(INSIDE_NUMBERS))
    ring = [INSIDE_NUMBERS.index(n) for n in ("inside_length", "inside_breadth", "jaw_width")]
    ties[np.ix_(ring, ring)] += RING_TIE.value * (1.0 - np.eye(len(ring)))
    depth, edge = INSIDE_NUMBERS.index("inside_depth"), INSIDE_NUMBERS.index("front_edge")
    ties[depth, edge] = ties[edge, depth] = EDGE_TIE.value
    sd = [hypot(COMMON_SPREAD[n].value, _delivery_doubt(n, pads)) for n in INSIDE_NUMBERS]
    return np.asarray(ties * np.outer(sd, sd))


def _delivery_doubt(number: str, pads: Mapping[Zone, PadKind]) -> float:
    """Spread of a usual number for want of how its zones are delivered [mm]."""
    unknown = [pads[zone] for zone in _SIDES.get(number, ()) if "delivered" in pads[zone].assumed]
    return hypot(*(_step(pad) for pad in unknown)) if unknown else 0.0


def _step(pad: PadKind) -> float:
    """The middle step from one thickness to the next [mm]."""
    return float(np.median(np.diff(pad.thicknesses_mm))) if len(pad.thicknesses_mm) > 1 else 0.0


def completed(shells: Sequence[Shell], insides: InsideBelief, form: ShellForm) -> tuple[Shell, ...]:
    """The shells with what is believed of their insides, kept to what makes a smooth inside.

    A width at the jaw that nobody measured gives way to a breadth that somebody did.
    """
    return tuple(_completed(shell, insides, form) for shell in shells)


def relearned(sheet: ModelSheet, observations: Sequence[Observation]) -> ModelSheet:
    """A sheet after something was seen of insides that nobody had measured.

    Parameters
    ----------
    sheet
        A sheet whose insides are believed and not all measured.
    observations
        Of `catalogue.insides.quantity` names: calipers, or what accepted fits say of a shell.

    Raises
    ------
    ValueError
        Where the sheet's insides are all measured: there is nothing to learn.
    """
    if sheet.insides is None:
        raise ValueError(
            f"the insides of {sheet.model} are all measured; correct its sheet instead"
        )
    insides = sheet.insides.given(observations)
    return replace(sheet, insides=insides, shells=completed(sheet.shells, insides, sheet.form))


def _completed(shell: Shell, insides: InsideBelief, form: ShellForm) -> Shell:
    believed = insides.of(shell.number).mean.tolist()
    numbers = {f"{n}_mm": round(v, 2) for n, v in zip(INSIDE_NUMBERS, believed, strict=True)}
    whole = replace(shell, **numbers)
    if "jaw_width" not in insides.unmeasured(shell.number):
        return whole
    low, high = jaw_widths_mm(whole, form)
    return replace(whole, jaw_width_mm=round(min(max(whole.jaw_width_mm, low), high), 2))


def usual_rear_taper(form: ShellForm, head: MiddleHead, length_mm: float, nape: PadKind) -> float:
    """How late the rear runs in, so that the nape pad as delivered meets the middle head [1].

    Parameters
    ----------
    form
        Its level is used.
    head
        The middle head of a shell's band.
    length_mm
        The shell's inside length [mm].
    nape
        The nape pad.

    Notes
    -----
    On the middle plane the rear lies `a sqrt(1 - t^k)` behind the middle, `a` half the length and
    t the share of the way from the level to the bottom. The pad's seat lies at the distance R of
    head and pad together; k follows from that one point.
    """
    if not nape.seats:
        return form.rear_taper
    reach = NAPE_SHARE.value * head.length_mm / 2.0 + filled_mm(nape)
    down = -radians(sum(seat.elevation_deg for seat in nape.seats) / len(nape.seats))
    back = min(reach * cos(down) / (length_mm / 2.0), 0.98)
    fall = min(max(reach * sin(down) / (form.level_mm + BOTTOM_MM), 0.05), 0.9)
    return float(np.clip(log(1.0 - back**2) / log(fall), 1.1, 4.0))
