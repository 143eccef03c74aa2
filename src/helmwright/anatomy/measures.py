"""The measures of a head: what each is, how it is taken, and how far a reading can be off."""

from dataclasses import dataclass
from math import pi

from helmwright.sources import Figure
from helmwright.sources.records import (
    ASSUMED,
    COMMON_PRACTICE,
    NIOSH_2003,
    SNYDER_1977,
    US_ARMY_2012,
)


class UnknownMeasureError(KeyError):
    """A measure was named that is none of the ten."""

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True, slots=True)
class Measure:
    """One quantity of the head.

    Parameters
    ----------
    key
        Its name in code and files.
    name
        Its name for a person.
    definition
        What it is.
    how
        How to take it, by landmarks.
    low_mm, high_mm
        The interval in which a reading of somebody from 8 years up is plausible [mm].
    entry_mm
        A wider interval, for telling one unit from another as a number is typed [mm].
    reading_error
        Technical error of measurement: SD of one reading about the same person's mean [mm].
    bias
        SD of one measurer's constant error, which repeats do not average away [mm].
    layer
        How many thicknesses of what is worn or of hair a reading over it adds [1].
    minutes
        What one careful reading, done twice, takes [min].
    sources
        Keys of the records behind definition and range.
    """

    key: str
    name: str
    definition: str
    how: str
    low_mm: float
    high_mm: float
    entry_mm: tuple[float, float]
    reading_error: Figure
    bias: Figure
    layer: float
    minutes: Figure
    sources: tuple[str, ...]

    def __post_init__(self) -> None:
        """Refuse intervals that do not contain one another."""
        if not self.entry_mm[0] <= self.low_mm < self.high_mm <= self.entry_mm[1]:
            raise ValueError(f"{self.key}: the plausible interval must lie inside entry_mm")

    def is_plausible(self, value_mm: float) -> bool:
        """Whether a reading [mm] can be this measure of anybody from 8 years up."""
        return self.low_mm <= value_mm <= self.high_mm


def _error(value: float, note: str) -> Figure:
    return Figure(value, "mm", ASSUMED, note=note)


_TAPE_NOTE = (
    "Non-stretch tape on children: 2.1 (same measurer) to 2.5 (thakkar_2017); more for hair and a "
    "busy room."
)
_CALIPER_NOTE = "Skilled measurers reach about 1 (from memory); more for a volunteer."
_BIAS_NOTE = "iso_20685 allows a mean error of 1 mm on the bare head and 2 mm over hair."
TAPE_LAYERS = 2.0 * pi
"""Thicknesses of a layer that a tape around it adds: 2 pi."""

MEASURES: tuple[Measure, ...] = (
    Measure(
        "head_circumference",
        "head circumference on the surveys' plane",
        "Largest circumference of the head in the plane just above the brow ridges.",
        "Tape just above the brow ridges in front and over the most rearward point of the head "
        "behind; not over the ears; snug enough to press the hair flat.",
        470.0,
        665.0,
        (440.0, 700.0),
        _error(3.0, _TAPE_NOTE),
        _error(1.5, _BIAS_NOTE),
        TAPE_LAYERS,
        Figure(1.0, "min", ASSUMED),
        (US_ARMY_2012.key, NIOSH_2003.key, SNYDER_1977.key),
    ),
    Measure(
        "tape_circumference",
        "head circumference by tape",
        "Circumference of the head about an inch above the eyebrows, where equipment rooms tape.",
        "Tape 1 inch above the eyebrows, half an inch above the root of each ear, over the most "
        "rearward point of the head. The landmarks set the plane, not the horizon. Light touch; "
        "with thick hair draw in until the hair stops giving.",
        465.0,
        660.0,
        (440.0, 700.0),
        _error(3.0, _TAPE_NOTE),
        _error(1.5, _BIAS_NOTE),
        TAPE_LAYERS,
        Figure(1.0, "min", ASSUMED),
        (COMMON_PRACTICE.key,),
    ),
    Measure(
        "head_length",
        "head length",
        "From the point between the brow ridges to the most rearward point of the head.",
        "One tip of the spreading caliper between the brows, held still; swing the other up and "
        "down the middle of the back of the head for the largest reading.",
        155.0,
        235.0,
        (110.0, 250.0),
        _error(1.5, _CALIPER_NOTE),
        _error(0.7, _BIAS_NOTE),
        2.0,
        Figure(0.7, "min", ASSUMED),
        (US_ARMY_2012.key, NIOSH_2003.key, SNYDER_1977.key),
    ),
    Measure(
        "head_breadth",
        "head breadth",
        "Largest breadth of the head above the ears.",
        "Caliper tips on both sides above and behind the ears, level with each other; move about "
        "for the largest reading.",
        120.0,
        188.0,
        (110.0, 250.0),
        _error(1.5, _CALIPER_NOTE),
        _error(0.7, _BIAS_NOTE),
        2.0,
        Figure(0.7, "min", ASSUMED),
        (US_ARMY_2012.key, NIOSH_2003.key, SNYDER_1977.key),
    ),
    Measure(
        "tragion_to_top",
        "tragion to top of head",
        "Height of the top of the head above the notch at the front of the ear.",
        "Head level, eyes ahead. Board flat on the crown; rule straight down to the notch just "
        "above the small flap in front of the ear canal.",
        88.0,
        165.0,
        (70.0, 190.0),
        _error(3.0, "A board and a rule on a moving head."),
        _error(1.5, _BIAS_NOTE),
        1.0,
        Figure(1.0, "min", ASSUMED),
        (US_ARMY_2012.key, SNYDER_1977.key),
    ),
    Measure(
        "brow_to_top",
        "brow to top of head",
        "Height of the top of the head above the eyebrow.",
        "Head level, eyes ahead. Board flat on the crown; rule straight down to the top edge of "
        "the eyebrow above the pupil.",
        58.0,
        140.0,
        (50.0, 160.0),
        _error(3.0, "A board and a rule on a moving head."),
        _error(1.5, _BIAS_NOTE),
        1.0,
        Figure(1.0, "min", ASSUMED),
        (ASSUMED.key,),
    ),
    Measure(
        "bizygomatic_breadth",
        "bizygomatic breadth",
        "Largest breadth of the face across the cheekbone arches.",
        "Caliper tips on the cheekbone arches in front of the ears; move about for the largest "
        "reading, touching without denting the skin.",
        100.0,
        180.0,
        (80.0, 200.0),
        _error(1.5, _CALIPER_NOTE),
        _error(0.7, _BIAS_NOTE),
        0.0,
        Figure(0.7, "min", ASSUMED),
        (US_ARMY_2012.key, NIOSH_2003.key, SNYDER_1977.key),
    ),
    Measure(
        "bigonial_breadth",
        "bigonial breadth",
        "Breadth of the lower jaw across its corners.",
        "Feel the corner of the jaw below each ear, teeth together but not clenched; caliper tips "
        "on the corners, touching without denting the skin.",
        75.0,
        170.0,
        (65.0, 190.0),
        _error(2.5, "The corners are less sharp than cheekbones."),
        _error(1.0, _BIAS_NOTE),
        0.0,
        Figure(0.7, "min", ASSUMED),
        (NIOSH_2003.key,),
    ),
    Measure(
        "jaw_pad_width",
        "width at the jaw pads",
        "Breadth of the face over the cheeks, where the jaw pads bear.",
        "Teeth together but not clenched. Caliper arms flat on both cheeks, halfway between the "
        "cheekbone arch and the corner of the jaw; touching without pressing in.",
        88.0,
        178.0,
        (75.0, 195.0),
        _error(2.0, "Over soft tissue."),
        _error(1.0, _BIAS_NOTE),
        0.0,
        Figure(0.7, "min", ASSUMED),
        (ASSUMED.key,),
    ),
    Measure(
        "bitragion_chin_arc",
        "bitragion chin arc",
        "From one ear notch around the front of the chin to the other.",
        "Tape from the notch in front of one ear canal, around the most forward point of the "
        "chin, to the other notch; teeth together, no pressure.",
        235.0,
        410.0,
        (215.0, 430.0),
        _error(4.0, "A long tape path over soft tissue."),
        _error(2.0, _BIAS_NOTE),
        0.0,
        Figure(1.0, "min", ASSUMED),
        (US_ARMY_2012.key, NIOSH_2003.key),
    ),
)
"""Every measure, in the order that arrays use."""

MEASURE_KEYS: tuple[str, ...] = tuple(measure.key for measure in MEASURES)
"""Keys of MEASURES, in their order."""

LIGHT_TAPE_HOW = (
    "The same way around as the tape, laid on top of the hair or cap: it touches all around and "
    "presses nowhere. Do not draw it in. It reads the same as the drawn-in tape, or more."
)
"""How a tape is laid on lightly, for the reading that tells hair from head."""

FIVE_MEASURES: tuple[str, ...] = (
    "tape_circumference",
    "head_length",
    "head_breadth",
    "brow_to_top",
    "jaw_pad_width",
)
"""The five that a fitting day takes: circumference, length, breadth, a height and a jaw."""

_SPOKEN = {
    "tape_circumference": "tape around the head",
    "head_circumference": "tape at brow ridges",
    "bitragion_chin_arc": "ear-chin-ear arc",
    "bizygomatic_breadth": "width across cheekbones",
    "bigonial_breadth": "width at jaw corners",
}
"""Where the term of the trade says nothing to who holds the tape."""

_BY_KEY = {measure.key: measure for measure in MEASURES}


def measure_of(key: str) -> Measure:
    """The measure of that key.

    Raises
    ------
    UnknownMeasureError
        If there is none.
    """
    try:
        return _BY_KEY[key]
    except KeyError:
        raise UnknownMeasureError(
            f"no measure is called {key!r}; there are {', '.join(MEASURE_KEYS)}"
        ) from None


def spoken_name(key: str) -> str:
    """A measure's name for a person, short enough for a column of 25.

    Raises
    ------
    UnknownMeasureError
        If there is none.
    """
    name = measure_of(key).name
    return _SPOKEN.get(key, name).removesuffix(" of head")
