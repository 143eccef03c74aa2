"""What one helmet model offers and allows, as data that checks itself."""

from dataclasses import dataclass
from functools import cached_property

from helmwright.catalogue.cell import AirCell
from helmwright.catalogue.changing import ChangeInstruction, PartKind
from helmwright.catalogue.foam import Foam
from helmwright.catalogue.insides import InsideBelief
from helmwright.catalogue.instruction import FitTopic, Instruction
from helmwright.catalogue.parts import ChinStrap, Exclusion, FaceGuard, Hardware
from helmwright.catalogue.zone import ZONES, Zone

BETWEEN_BANDS = ("larger", "smaller")
"""What a sheet may say of a reading between two bands, or in both.

Larger is common practice, no source."""


@dataclass(frozen=True, slots=True)
class Shell:
    """One shell size, bare: numbers that a person can take with inside calipers.

    Heights are above the center of the ear opening.

    Parameters
    ----------
    number
        The shell's place in the model's row of sizes, from 1 (smallest).
    name
        The maker's own word for it, if any.
    chart_low_mm, chart_high_mm
        The chart's band of head circumference, by the trade's tape [mm].
    inside_length_mm, inside_breadth_mm
        Largest front-to-rear and side-to-side inside distances [mm].
    inside_depth_mm
        Crown to the level of the front edge [mm].
    jaw_width_mm
        Inside width where the jaw pads sit [mm].
    front_edge_mm
        Height of the front edge above the ear openings [mm].
    mass_kg
        Shell with pads and face guard [kg].
    center_of_mass_mm
        Ahead of and above the ear openings [mm].
    assumed
        Keys that the sheet leaves out, and the usual was put in for. The insides are not among
        them: `ModelSheet.insides` says what is believed of those.
    """

    number: int
    name: str
    chart_low_mm: float
    chart_high_mm: float
    inside_length_mm: float
    inside_breadth_mm: float
    inside_depth_mm: float
    jaw_width_mm: float
    front_edge_mm: float
    mass_kg: float
    center_of_mass_mm: tuple[float, float]
    assumed: tuple[str, ...] = ()

    @property
    def crown_mm(self) -> float:
        """Height of the inside of the crown above the ear openings [mm]."""
        return self.front_edge_mm + self.inside_depth_mm


@dataclass(frozen=True, slots=True)
class ShellForm:
    """How the inside of the shells curves between the numbers that calipers give.

    Parameters
    ----------
    level_mm
        Height above the ear openings at which length and breadth were taken [mm].
    section_exponent
        Exponent of the level section; 2 is an ellipse, larger is squarer [1].
    dome_exponent
        Exponent of the rise to the crown [1].
    jaw_height_mm
        Height of the jaw pads' middle; negative is below the ear openings [mm].
    rear_taper
        Exponent by which the rear runs in below the level; larger runs in later [1].
    front_slope
        Lean of the front above the level; 0 is none [1].
    """

    level_mm: float
    section_exponent: float
    dome_exponent: float
    jaw_height_mm: float
    rear_taper: float
    front_slope: float = 0.22


USUAL_FORM = ShellForm(
    level_mm=30.0,
    section_exponent=2.35,
    dome_exponent=2.3,
    jaw_height_mm=-35.0,
    rear_taper=1.35,
    front_slope=0.22,
)
"""The form of a sheet that says nothing of it; assumed."""


@dataclass(frozen=True, slots=True)
class Seat:
    """A contact point of a pad, seen from the shell's middle at its level.

    Parameters
    ----------
    azimuth_deg
        0 straight ahead, 90 to the wearer's left [deg].
    elevation_deg
        0 level, 90 straight up [deg].
    """

    azimuth_deg: float
    elevation_deg: float


@dataclass(frozen=True, slots=True)
class PadKind:
    """The pads that one zone can take: one kind, in several thicknesses.

    Parameters
    ----------
    zone
        Where it sits.
    seats
        Its contact points.
    labels, thicknesses_mm
        The thicknesses as written on the bag, and in [mm]; thinnest first.
    area_cm2
        The area that bears on the head [cm2].
    fit_foam, fit_layer_mm
        The soft layer next to the head and its thickness [mm]; a pad thinner than that is all
        fit layer.
    energy_foam
        The stiff layer behind it.
    delivered
        Index of the thickness that the shell arrives with.
    attachment, price_usd, part_numbers
        How it is held, what one costs, the part number of each thickness.
    assumed
        Keys that the sheet leaves out, and the usual was put in for.
    cell
        The air cell between the layers, where there is one; its one thickness is that of the
        full cell.
    """

    zone: Zone
    seats: tuple[Seat, ...]
    labels: tuple[str, ...]
    thicknesses_mm: tuple[float, ...]
    area_cm2: float
    fit_foam: Foam
    fit_layer_mm: float
    energy_foam: Foam
    delivered: int
    attachment: str = ""
    price_usd: float | None = None
    part_numbers: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    cell: AirCell | None = None


@dataclass(frozen=True, slots=True)
class PressFinding:
    """What a press test on a kitchen scale says of the soft layer of a kind of pad.

    Parameters
    ----------
    zones, pad_label
        The zones whose pads it speaks for, and the thickness that was pressed.
    factor
        How many times as stiff the fit foam is as its curve [1].
    spread
        How far that may be off for the pressed piece, SD of the logarithm [1].
    scatter, before
        Scatter of such pads with the test and without, SD of the logarithm [1].
    prior
        How far the sheet's curve was believed to be off, likewise [1].
    fit_layer_mm, fit_layer_spread_mm
        The fit layer and how far it may be off [mm].
    misfit
        Chance of points that lie so far off the curve or farther, if the curve holds [1].
    """

    zones: tuple[Zone, ...]
    pad_label: str
    factor: float
    spread: float
    scatter: float
    before: float
    prior: float
    fit_layer_mm: float
    fit_layer_spread_mm: float
    misfit: float


@dataclass(frozen=True)
class ModelSheet:
    """What one helmet model offers and allows.

    Parameters
    ----------
    model
        The model's name.
    invented
        True where no such helmet exists.
    shells, form
        The sizes, smallest first, and how their insides curve.
    pads
        One kind of pad for each zone, in the order of `ZONES`.
    matched
        The pairs of zones that must carry the same thickness.
    between_bands
        Which shell a reading between two bands, or in both, takes: one of `BETWEEN_BANDS`.
    strap_pull_n
        What the fastened chin strap pulls the shell forward and down with [N].
    without_pad
        Zones that the helmet does not pad, and why; their entry in `pads` has no seats.
    face_guards, chin_straps, hardware
        The other parts.
    exclusions
        Parts that must not be in one helmet together.
    recertification_months
        The longest time between recertifications, by the maker; None where not stated.
    life_years
        The longest life, by the maker; None where not stated.
    instructions
        The maker's own fitting instructions where they differ from the default.
    note
        Anything else that a reader should know.
    ages
        For whom the model is made, from and up to these ages [years]; None for adults.
    insides
        What is believed of the insides where not all was measured; the shells then hold its
        means. None where everything was measured.
    strap_assumed
        Whether the sheet leaves the strap's pull out.
    presses
        What press tests say of its pads; the pads have it already.
    changing
        The maker's own ways to change parts.
    """

    model: str
    invented: bool
    shells: tuple[Shell, ...]
    form: ShellForm
    pads: tuple[PadKind, ...]
    matched: tuple[tuple[Zone, Zone], ...]
    between_bands: str
    strap_pull_n: tuple[float, float]
    without_pad: tuple[tuple[Zone, str], ...] = ()
    face_guards: tuple[FaceGuard, ...] = ()
    chin_straps: tuple[ChinStrap, ...] = ()
    hardware: tuple[Hardware, ...] = ()
    exclusions: tuple[Exclusion, ...] = ()
    recertification_months: int | None = None
    life_years: float | None = None
    instructions: tuple[Instruction, ...] = ()
    note: str = ""
    ages: tuple[float, float] | None = None
    insides: InsideBelief | None = None
    strap_assumed: bool = False
    presses: tuple[PressFinding, ...] = ()
    changing: tuple[ChangeInstruction, ...] = ()

    @cached_property
    def delivered(self) -> tuple[int, ...]:
        """The delivered build: an index into each zone's thicknesses, in the order of ZONES."""
        return tuple(pad.delivered for pad in self.pads)

    def pad(self, zone: Zone) -> PadKind:
        """The pads of one zone."""
        return self.pads[ZONES.index(zone)]

    def shell(self, number: int) -> Shell:
        """The shell of that number; KeyError where there is none."""
        for shell in self.shells:
            if shell.number == number:
                return shell
        raise KeyError(f"{self.model} has no shell {number}")

    def instruction(self, topic: FitTopic) -> Instruction | None:
        """The maker's own instruction on a topic; None where the default holds."""
        return next((each for each in self.instructions if each.topic is topic), None)

    def change_instruction(self, part: PartKind) -> ChangeInstruction | None:
        """The maker's own way to change a kind of part; None where the usual one holds."""
        return next((each for each in self.changing if each.part is part), None)
