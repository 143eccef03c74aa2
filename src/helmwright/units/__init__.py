"""Quantities as people write and read them; inside, everything is mm and kg."""

from helmwright.units.length import (
    MM_PER_HAT_SIZE,
    MM_PER_INCH,
    UNITS,
    HatSizeError,
    ImplausibleError,
    NoUnitError,
    UnknownUnitError,
    parse_length,
)
from helmwright.units.number import (
    DENOMINATORS,
    DecimalCommaError,
    MissingSpaceError,
    SpreadsheetDateError,
    UnitsError,
    UnreadableError,
)
from helmwright.units.stature import (
    PLAUSIBLE_STATURE_MM,
    PLAUSIBLE_YOUTH_STATURE_MM,
    parse_stature,
)
from helmwright.units.weight import (
    KG_PER_POUND,
    PLAUSIBLE_WEIGHT_KG,
    PLAUSIBLE_YOUTH_WEIGHT_KG,
    WEIGHT_UNITS,
    parse_weight,
)
from helmwright.units.written import feet_and_inches, inches, millimeters, pounds

__all__ = [
    "DENOMINATORS",
    "KG_PER_POUND",
    "MM_PER_HAT_SIZE",
    "MM_PER_INCH",
    "PLAUSIBLE_STATURE_MM",
    "PLAUSIBLE_WEIGHT_KG",
    "PLAUSIBLE_YOUTH_STATURE_MM",
    "PLAUSIBLE_YOUTH_WEIGHT_KG",
    "UNITS",
    "WEIGHT_UNITS",
    "DecimalCommaError",
    "HatSizeError",
    "ImplausibleError",
    "MissingSpaceError",
    "NoUnitError",
    "SpreadsheetDateError",
    "UnitsError",
    "UnknownUnitError",
    "UnreadableError",
    "feet_and_inches",
    "inches",
    "millimeters",
    "parse_length",
    "parse_stature",
    "parse_weight",
    "pounds",
]
