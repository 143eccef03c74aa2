"""What a column holds, read from its heading: the field, the unit, which reading."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from helmwright.roster.plain import printable


class Field(StrEnum):
    """What a column of a roster can hold; the head measures go by their own names."""

    NUMBER = "number"
    NAME = "name"
    GIVEN_NAME = "given name"
    FAMILY_NAME = "family name"
    POSITION = "position"
    SEX = "sex"
    AGE = "age"
    BORN = "born"
    GRADE = "grade"
    MEASURED = "measured"
    STATURE = "stature"
    WEIGHT = "weight"
    WORN = "worn"
    TAPE_OVER = "tape over"
    MEASURED_BY = "measured by"
    LIGHT_TAPE = "light tape"
    BUILD_NOW = "build now"
    GLASSES = "glasses"
    GUARD = "face guard"
    NOTES = "notes"
    CIRCUMFERENCE = "tape_circumference"
    LENGTH = "head_length"
    BREADTH = "head_breadth"
    BROW_TO_TOP = "brow_to_top"
    TRAGION_TO_TOP = "tragion_to_top"
    JAW_WIDTH = "jaw_pad_width"
    BIGONIAL = "bigonial_breadth"
    BIZYGOMATIC = "bizygomatic_breadth"
    CHIN_ARC = "bitragion_chin_arc"


MEASURE_FIELDS = tuple(Field)[tuple(Field).index(Field.CIRCUMFERENCE) :]
"""The fields that are readings of the head."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its own heading, what it holds, and the unit that the heading names.

    `field` is None where the heading is not known.
    """

    heading: str
    field: Field | None
    unit: str | None = None

    @property
    def is_measure(self) -> bool:
        """Whether the column holds readings of the head."""
        return self.field in MEASURE_FIELDS or self.is_light

    @property
    def is_light(self) -> bool:
        """Whether its readings are of a tape laid on lightly."""
        return self.field is Field.LIGHT_TAPE

    @property
    def measure(self) -> str:
        """Key of the measure that the column holds."""
        return str(Field.CIRCUMFERENCE if self.is_light else self.field)


SYNONYMS: dict[Field, str] = {
    Field.NUMBER: "#|no|nr|num|number|jersey|jersey no|jersey number|player no|player number",
    Field.NAME: "name|player|player name|full name|athlete|names",
    Field.GIVEN_NAME: "first|first name|given name",
    Field.FAMILY_NAME: "last|last name|surname|family name",
    Field.POSITION: "position|pos|plays",
    Field.SEX: "sex|gender|m/f|male/female",
    Field.AGE: "age|player age|years old",
    Field.BORN: "born|birth year|year of birth|birth date|birthdate|date of birth|dob|birthday",
    Field.GRADE: "grade|school grade|class|school year|year in school|class year|yr|cl",
    Field.MEASURED: "measured|measured on|date measured|measuring date|date of measuring|"
    "months ago|measured months ago|months since measured",
    Field.STATURE: "height|ht|stature|player height|body height|standing height",
    Field.WEIGHT: "weight|wt|body weight|player weight",
    Field.WORN: "worn|worn underneath|worn under|under the helmet|hair|hair or cap",
    Field.TAPE_OVER: "tape over|taped over|measured over|read over|over",
    Field.MEASURED_BY: "measured by|measurer|read by|taken by",
    Field.LIGHT_TAPE: "light tape|tape light|tape, light|light circumference|circumference light",
    Field.BUILD_NOW: "build now|current build|pads now|in the helmet now",
    Field.GLASSES: "glasses|wears glasses|eyeglasses|goggles|eyewear|spectacles",
    Field.GUARD: "face guard|guard|own guard|face guard wanted|guard wanted|wants guard",
    Field.NOTES: "notes|note|comment|comments|remark|remarks",
    Field.CIRCUMFERENCE: "circumference|head circumference|circ|head circ|tape|head tape|head|"
    "head size|head around|around|around the head|girth|head girth|tape reading",
    Field.LENGTH: "length|head length|front to back|front to rear|caliper length",
    Field.BREADTH: "breadth|width|head breadth|head width|side to side|caliper width|"
    "caliper breadth",
    Field.BROW_TO_TOP: "brow to top|brow to top of head|brow top|brow to crown|brow",
    Field.TRAGION_TO_TOP: "tragion to top|tragion to top of head|tragion top|ear to top|"
    "ear to top of head|ear to crown",
    Field.JAW_WIDTH: "jaw|jaw width|jaw pads|jaw pad width|width at jaw pads|"
    "width at the jaw pads|jaw width at pads|jaw width at the pads|jaw at pads|jaw at the pads",
    Field.BIGONIAL: "bigonial|bigonial breadth|bigonial width|jaw corners|jaw corner to corner",
    Field.BIZYGOMATIC: "bizygomatic|bizygomatic breadth|bizygomatic width|cheek|cheeks|"
    "cheek breadth|cheek width|cheekbones|cheekbone width",
    Field.CHIN_ARC: "chin arc|bitragion chin arc|tragion chin arc|ear to ear under chin|chin",
}

_KNOWN = {name: field for field, names in SYNONYMS.items() for name in names.split("|")}
_UNITS = {
    **dict.fromkeys(("in", "ins", "inch", "inches", '"', "″"), "in"),
    **dict.fromkeys(("cm", "centimeter", "centimeters", "centimetres"), "cm"),
    **dict.fromkeys(("mm", "millimeter", "millimeters", "millimetres"), "mm"),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), "lb"),
    **dict.fromkeys(("kg", "kgs", "kilograms"), "kg"),
    **dict.fromkeys(("ft", "feet", "ft in", "ft-in", "feet and inches", "feet inches"), "in"),
    **dict.fromkeys(("us hat", "us hat size"), "US hat"),
    **dict.fromkeys(("in years", "years", "yrs"), "years"),
    **dict.fromkeys(("months ago", "months"), "months"),
}
_BRACKETED = re.compile(r"[\(\[]\s*([^\)\]]*?)\s*[\)\]]")
_ABOUT = re.compile(r"\s*\((?:m/f|optional|if known|m or f)\)$")
_ORDINAL = re.compile(
    r"\b(?:(?:reading|take|no|try)?\s*#?\s*[1-4]|[1-4](?:st|nd|rd|th)(?: reading)?"
    r"|(?:first|second|third|fourth)(?: reading)?|again|repeat|[abc])$"
    r"|^(?:1st|2nd|3rd|4th|second|third|fourth)\b"
)


HAT_HEADING = 'head the column "US hat" where it holds United States hat sizes'
"""What to do about a heading such as "hat size": sizes differ between countries."""


ANSWER_MARK = "Answer:"
"""How the headings of an answer begin, so that a table with answers can be read again."""


def names_hat(heading: str) -> bool:
    """Whether a heading speaks of hats."""
    return re.search(r"\bhats?\b", heading.lower().replace("_", " ")) is not None


def read_header(cells: Sequence[str]) -> tuple[Column, ...]:
    """What each heading of a header row says."""
    return tuple(read_heading(cell) for cell in cells)


def read_heading(heading: str) -> Column:
    """What one heading says: "Tape 2 (in)" is the circumference, in inches."""
    shown = printable(heading)
    plain = " ".join(shown.lower().replace("_", " ").split())
    if plain.startswith(ANSWER_MARK.lower()):
        return Column(shown, Field.NOTES)
    if plain in ("us hat", "us hat size"):
        return Column(shown, Field.CIRCUMFERENCE, "US hat")
    words, unit = without_unit(plain)
    for candidate in (words, _ORDINAL.sub("", words).strip(" ,-#"), _ABOUT.sub("", words)):
        field = _KNOWN.get(candidate.strip(" .:").replace(".", ""))
        if field is not None:
            return Column(shown, field, unit)
    return Column(shown, None, unit)


def without_unit(words: str) -> tuple[str, str | None]:
    """The heading without its unit, and the unit, in brackets or as the last words."""
    for match in _BRACKETED.finditer(words):
        unit = _UNITS.get(match[1].rstrip("."))
        if unit is not None:
            return " ".join((words[: match.start()] + words[match.end() :]).split()), unit
    for spelled, unit in _UNITS.items():
        stem = words.rstrip(".").removesuffix(spelled)
        if len(stem) < len(words.rstrip(".")) and stem.endswith((" ", ",", "-")) and stem.strip():
            return stem.strip(" ,-"), unit
    return words, None
