"""What a row of a roster would do, in words."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from helmwright.anatomy import Over, Reading, spoken_name
from helmwright.records.kinds.people import PlayerFields
from helmwright.units import feet_and_inches, inches, pounds

_CALLED: Mapping[str, str] = {
    "number": "number",
    "position": "position",
    "sex": "sex",
    "birth_year": "born",
    "school_class": "class",
    "stature_mm": "height",
    "weight_kg": "weight",
    "glasses": "glasses",
    "worn": "worn",
}


def changes(before: PlayerFields, after: PlayerFields) -> list[str]:
    """Each field that becomes another."""
    return [
        f"{word}: {_shown(name, getattr(before, name)) or 'not known'}"
        f" → {_shown(name, getattr(after, name)) or 'not known'}"
        for name, word in _CALLED.items()
        if getattr(before, name) != getattr(after, name)
    ]


def fields_told(fields: PlayerFields) -> str:
    """All that is known of a new player, but the name."""
    return ", ".join(_told(fields)) or "nothing but the name"


def readings_told(readings: Sequence[Reading]) -> list[str]:
    """Each reading that is added."""
    return [f"a reading added: {_reading(each)}" for each in readings]


def _told(fields: PlayerFields) -> Iterator[str]:
    for name, word in _CALLED.items():
        shown = _shown(name, getattr(fields, name))
        if shown:
            yield f"{word} {shown}"


def _reading(reading: Reading) -> str:
    written = inches(reading.value_mm, denominator=16, mark=" in")
    over = f", over {reading.over.value}" if reading.over is not Over.UNSTATED else ""
    return f"{spoken_name(reading.measure)} {written}{over}"


def _shown(name: str, value: Any) -> str:
    if value is None or value == ():
        return ""
    if name == "stature_mm":
        return feet_and_inches(value)
    if name == "weight_kg":
        return pounds(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return " and ".join(value) if isinstance(value, tuple) else str(value)
