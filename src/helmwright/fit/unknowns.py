"""What the contact model does not know about a head and a helmet, drawn with the head."""

from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.cell import FILL_SPREAD
from helmwright.catalogue.sheet import ModelSheet, PadKind
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, STARK_2023

Floats = npt.NDArray[np.float64]

ZONE_RESIDUAL = Figure(
    1.9, "mm", ASSUMED, note="how far a head stands off its modeled surface over a zone, SD"
)
JAW_RESIDUAL = Figure(1.25, "mm", ASSUMED, note="the same over a jaw pad, SD")
CONTACT_RESIDUAL = Figure(
    1.0, "mm", ASSUMED, note="bumps and hollows between the contacts of one pad, SD"
)
JAW_CONTACT_RESIDUAL = Figure(0.45, "mm", ASSUMED, note="the same under a jaw pad, SD")
COMMON_SHARE = Figure(
    0.25, "1", ASSUMED, note="share of the residual's variance that all zones have in common"
)
BROW_ERROR = Figure(2.5, "mm", ASSUMED, note="error of the modeled brow height, SD")
FRICTION = Figure(
    0.32, "1", STARK_2023, spread=0.05, note="static friction of live heads against a liner"
)
FRICTION_LIMITS = (0.1, 0.6)
"""No draw of it lies beyond."""

PULL_SCATTER = Figure(
    0.35, "1", ASSUMED, note="how far a strap's pull varies between players, SD of its logarithm"
)


_JAWS = (Zone.JAW_LEFT, Zone.JAW_RIGHT)


@dataclass(frozen=True)
class Unknowns:
    """n draws of what the model does not know.

    Parameters
    ----------
    zone_mm
        The head beyond its modeled surface over each zone, shape (n, 8) [mm].
    contact_mm
        The same at each contact beyond its zone's, in the order of the sheet's seats, shape
        (n, s) [mm].
    brow_mm
        Error of the brow height, shape (n,) [mm].
    foam
        Stiffness of each zone's pad over its nominal law, shape (n, 8) [1]. For an air cell the
        pressure of its fill over the one at which it should feel snug; the foam above it goes
        along.
    friction
        Coefficient, shape (n,) [1].
    pull
        Strap's pull over the sheet's, shape (n,) [1].
    """

    zone_mm: Floats
    contact_mm: Floats
    brow_mm: Floats
    foam: Floats
    friction: Floats
    pull: Floats

    def __len__(self) -> int:
        return int(self.brow_mm.shape[0])

    def first(self, count: int) -> "Unknowns":
        """The first draws alone."""
        return self.chosen(slice(count))

    def chosen(self, which: slice | npt.NDArray[np.intp]) -> "Unknowns":
        """Some of the draws."""
        return Unknowns(**{part.name: getattr(self, part.name)[which] for part in fields(self)})

    def taking(self, other: "Unknowns", taken: npt.NDArray[np.bool_]) -> "Unknowns":
        """The other's draws where taken, shape (n,)."""
        pairs = {
            part.name: (getattr(self, part.name), getattr(other, part.name))
            for part in fields(self)
        }
        return Unknowns(
            **{
                name: np.where(taken if mine.ndim == 1 else taken[:, None], theirs, mine)
                for name, (mine, theirs) in pairs.items()
            }
        )


def draw_unknowns(sheet: ModelSheet, count: int, rng: np.random.Generator) -> Unknowns:
    """Draw what the model does not know.

    Parameters
    ----------
    sheet
        The model, for the scatter of its fit foams.
    count
        How many draws.
    rng
        The random generator.
    """
    widths = (1, len(ZONES), _seats(sheet), 1, len(ZONES), 1, 1)
    return placed_unknowns(sheet, np.hstack([rng.standard_normal((count, w)) for w in widths]))


def unknown_count(sheet: ModelSheet) -> int:
    """How many standard normal numbers one draw of the unknowns is made of."""
    return _seats(sheet) + 2 * len(ZONES) + 4


def placed_unknowns(sheet: ModelSheet, standard: Floats) -> Unknowns:
    """Unknowns made of standard normal numbers, shape (n, `unknown_count(sheet)`).

    Notes
    -----
    In this order: what all zones have in common, each zone's own, each contact's, the brow, each
    zone's foam, friction, pull. Friction is held to 0.1 to 0.6, more than four standard
    deviations from its mean on either side.
    """
    seats, zones = _seats(sheet), len(ZONES)
    ends = np.cumsum([1, zones, seats, 1, zones, 1])
    common, own, contact, brow, foam, friction, pull = np.split(standard, ends, axis=1)
    sd = np.array([_residual(zone) for zone in ZONES])
    share = COMMON_SHARE.value
    bumps = np.array([_bump(pad.zone) for pad in sheet.pads for _ in pad.seats])
    scatter = np.array([_scatter(pad) for pad in sheet.pads])
    return Unknowns(
        zone_mm=(common * np.sqrt(share) + own * np.sqrt(1.0 - share)) * sd,
        contact_mm=contact * bumps,
        brow_mm=brow[:, 0] * BROW_ERROR.value,
        foam=np.exp(foam[:, sharers(sheet)] * scatter),
        friction=np.clip(
            FRICTION.value + friction[:, 0] * (FRICTION.spread or 0.0), *FRICTION_LIMITS
        ),
        pull=np.exp(pull[:, 0] * PULL_SCATTER.value),
    )


def _seats(sheet: ModelSheet) -> int:
    return sum(len(pad.seats) for pad in sheet.pads)


def middle_unknowns(sheet: ModelSheet) -> Unknowns:
    """One draw in which everything is as modeled: what a drawing shows."""
    return Unknowns(
        zone_mm=np.zeros((1, len(ZONES))),
        contact_mm=np.zeros((1, _seats(sheet))),
        brow_mm=np.zeros(1),
        foam=np.ones((1, len(ZONES))),
        friction=np.full(1, FRICTION.value),
        pull=np.ones(1),
    )


def sharers(sheet: ModelSheet) -> list[int]:
    """For each zone the first one that shares its air, itself where none does."""
    first: dict[str, int] = {}
    names = [pad.cell.bladder if pad.cell else f" {pad.zone}" for pad in sheet.pads]
    return [first.setdefault(name, place) for place, name in enumerate(names)]


def _scatter(pad: PadKind) -> float:
    return FILL_SPREAD.value if pad.cell else pad.fit_foam.scatter


def _residual(zone: Zone) -> float:
    return JAW_RESIDUAL.value if zone in _JAWS else ZONE_RESIDUAL.value


def _bump(zone: Zone) -> float:
    return JAW_CONTACT_RESIDUAL.value if zone in _JAWS else CONTACT_RESIDUAL.value
