"""What is worn between pads and scalp: hair and headwear, put back zone by zone with its doubt."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws, HeadEstimate, Over
from helmwright.anatomy.covering import thicknesses
from helmwright.anatomy.measures import TAPE_LAYERS
from helmwright.catalogue.foam import Foam
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.unknowns import Unknowns
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]
Layers = tuple[tuple[Foam, float], ...]

FIRM = Foam(
    key="covering, firm",
    strain=(0.0, 0.05, 0.15, 0.3),
    stress_kpa=(0.0, 1.0, 4.0, 12.0),
    beyond_kpa=100.0,
    source=ASSUMED,
    scatter=0.3,
)
"""What a drawn-in tape leaves of hair or cloth: it gives little more under a pad."""

LOOSE = Foam(
    key="covering, loose",
    strain=(0.0, 0.194, 0.323, 0.485, 0.617, 0.727, 0.808, 0.862, 0.898, 0.924, 0.943, 0.954),
    stress_kpa=(0.0, 0.05, 0.1, 0.2, 0.35, 0.6, 1.0, 1.6, 2.5, 4.0, 7.0, 12.0),
    beyond_kpa=400.0,
    source=ASSUMED,
    scatter=0.3,
)
"""What only a light tape rides on: a pad that fits has it nearly flat.

Strain 0.97 p / (p + 0.2 kPa).
"""

USUAL_PRESSURE = Figure(
    2.5, "kPa", ASSUMED, note="pressure at which a departure from the nominal layer is counted"
)


def _share(value: float, note: str) -> Figure:
    return Figure(value, "1", ASSUMED, note=f"share of the layer {note}")


HAIR_ZONES: Mapping[Zone, Figure] = {
    Zone.CROWN: _share(1.0, "of hair over the crown"),
    Zone.FRONT: _share(0.5, "of hair under the front pad: it bears partly on the forehead"),
    Zone.REAR: _share(1.0, "of hair at the rear"),
    Zone.LEFT: _share(1.0, "of hair at the sides"),
    Zone.RIGHT: _share(1.0, "of hair at the sides"),
    Zone.NAPE: _share(0.5, "of hair under the nape pad: it bears partly below the hairline"),
}
CAP_ZONES: Mapping[Zone, Figure] = {
    **{
        zone: _share(1.0, "of a cap above its edge")
        for zone in (Zone.CROWN, Zone.FRONT, Zone.REAR, Zone.LEFT, Zone.RIGHT)
    },
    Zone.NAPE: _share(0.3, "of a thin cap under the nape pad"),
}
WINTER_CAP_ZONES: Mapping[Zone, Figure] = {
    **CAP_ZONES,
    Zone.NAPE: _share(1.0, "of a winter cap under the nape pad: it reaches down"),
}
"""Nothing lies under the jaw pads."""

_TAPE = "tape_circumference"


def zone_share(kind: Over, zone: Zone) -> float:
    """How much of a covering lies under one zone's pad [1]."""
    table = {Over.SKULL_CAP: CAP_ZONES, Over.WINTER_CAP: WINTER_CAP_ZONES}.get(kind, HAIR_ZONES)
    return table[zone].value if zone in table else 0.0


def nominal(estimate: HeadEstimate, kind: Over) -> tuple[float, float]:
    """Firm and loose thickness of a covering that the pads' laws are made for [mm].

    Notes
    -----
    One of a few round values, so that the laws can be kept from player to player; what this
    player's covering departs from it goes into the draws (`covered`). Hair of which nobody spoke is
    that of the likeliest sex and age, by the surveys.
    """
    (firm, _), (loose, _) = thicknesses(kind, estimate.likeliest)
    return round(firm, 1), 0.0 if kind is Over.UNSTATED else loose


def covering_layers(estimate: HeadEstimate) -> tuple[Layers, ...]:
    """Foams and free thicknesses [mm] under each zone's pad; empty for a bare head."""
    layers = tuple(_zone_layers(estimate, zone) for zone in ZONES)
    return layers if any(layers) else ()


def _zone_layers(estimate: HeadEstimate, zone: Zone) -> Layers:
    found: list[tuple[Foam, float]] = []
    for kind in estimate.worn:
        share = zone_share(kind, zone)
        for foam, thickness in zip((FIRM, LOOSE), nominal(estimate, kind), strict=True):
            if share * thickness > 0.0:
                found.append((foam, share * thickness))
    return tuple(found)


def covered(unknowns: Unknowns, heads: HeadDraws, estimate: HeadEstimate) -> Unknowns:
    """The unknowns with what each drawn head's covering departs from the nominal one.

    Notes
    -----
    The thickness left at a usual pressure p is `firm (1 - e_f(p)) + loose (1 - e_l(p))`. What a
    draw has more of it than the nominal layer stands under the pad as if the head were larger
    there by the zone's share of it. A layer cannot be thinner than nothing.
    """
    if not heads.layers or not estimate.worn:
        return unknowns
    return replace(unknowns, zone_mm=unknowns.zone_mm + departures_mm(heads, estimate))


def departures_mm(heads: HeadDraws, estimate: HeadEstimate) -> Floats:
    """What each drawn head's covering adds under each zone to the nominal one, (n, 8) [mm]."""
    extra = np.zeros((len(heads), len(ZONES)))
    for kind in estimate.worn if heads.layers else ():
        shares = np.array([zone_share(kind, zone) for zone in ZONES])
        extra += _departure_mm(heads, estimate, kind)[:, None] * shares
    return extra


def _departure_mm(heads: HeadDraws, estimate: HeadEstimate, kind: Over) -> Floats:
    firm, loose = nominal(estimate, kind)
    pressure = np.array(USUAL_PRESSURE.value)
    more_firm = np.maximum(heads.firm(kind), 0.0) - firm
    more_loose = np.maximum(heads.loose(kind), 0.0) - loose
    left_firm, left_loose = 1.0 - FIRM.strain_at(pressure), 1.0 - LOOSE.strain_at(pressure)
    return np.asarray(left_firm * more_firm + left_loose * more_loose)


def worn_tape(estimate: HeadEstimate, count: int, rng: np.random.Generator) -> Floats:
    """Draws of the tape over what will be worn, which is what a size chart means, (count,) [mm].

    Notes
    -----
    The bare head's tape and 2 pi firm thicknesses of everything worn, drawn jointly: a tape that
    was taken over it says what it reads, whatever of it is hair.
    """
    heads = estimate.draw(count, rng)
    around = sum((heads.firm(kind) for kind in estimate.worn), np.zeros(count))
    return np.asarray(heads.of(_TAPE) + TAPE_LAYERS * around)
