"""Quantities as people write and read them; inside, everything is mm and kg."""

from helmwright.units.elevation import PLAUSIBLE_ELEVATION_M, parse_elevation
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
from helmwright.units.scale import SCALE_UNITS, parse_scale, pounds_and_ounces
from helmwright.units.stature import (
    PLAUSIBLE_STATURE_MM,
    PLAUSIBLE_YOUTH_STATURE_MM,
    parse_stature,
)
from helmwright.units.temperature import PLAUSIBLE_TEMPERATURE_C, parse_temperature
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
    "PLAUSIBLE_ELEVATION_M",
    "PLAUSIBLE_STATURE_MM",
    "PLAUSIBLE_TEMPERATURE_C",
    "PLAUSIBLE_WEIGHT_KG",
    "PLAUSIBLE_YOUTH_STATURE_MM",
    "PLAUSIBLE_YOUTH_WEIGHT_KG",
    "SCALE_UNITS",
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
    "parse_elevation",
    "parse_length",
    "parse_scale",
    "parse_stature",
    "parse_temperature",
    "parse_weight",
    "pounds",
    "pounds_and_ounces",
]
