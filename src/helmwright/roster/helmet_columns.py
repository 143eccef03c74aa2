"""What a column of a helmet list holds, read from its heading."""

from collections.abc import Mapping, Sequence
from enum import StrEnum

from helmwright.roster.columns import without_unit
from helmwright.roster.plain import printable


class HelmetField(StrEnum):
    """What a column of a helmet list can hold."""

    CODE = "ID"
    SERIAL = "serial"
    MODEL = "model"
    SHELL = "shell"
    COLOR = "color"
    MADE = "made"
    BOUGHT = "bought"
    FIRST_CERTIFIED = "first certified"
    RECERTIFIED = "recertified"
    INTERVAL = "recertify every"
    LIFE = "life"
    STORE = "store"
    BUILD_NOW = "build now"
    GUARD = "face guard"
    STRAP = "chin strap"
    NOTES = "notes"


HELMET_SYNONYMS: Mapping[HelmetField, str] = {
    HelmetField.CODE: "id|own id|our id|helmet id|helmet|helmet no|helmet number|code|tag|label|"
    "asset|asset no|#|no|number",
    HelmetField.SERIAL: "serial|serial no|serial number|serial #|s/n|sn",
    HelmetField.MODEL: "model|helmet model|kind",
    HelmetField.SHELL: "shell|shell no|shell number|shell size|size",
    HelmetField.COLOR: "color|colour|shell color",
    HelmetField.MADE: "made|made on|date made|manufactured|manufacture date|date of manufacture|"
    "manufactured on|built",
    HelmetField.BOUGHT: "bought|bought on|purchased|purchased on|purchase date|date bought|"
    "date purchased|acquired",
    HelmetField.FIRST_CERTIFIED: "first certified|first certified on|certified|certified on|"
    "certification|certification date|first certification|initial certification",
    HelmetField.RECERTIFIED: "recertified|recertified on|last recertified|recertification|"
    "last recertification|recertification date|reconditioned|reconditioned on|last reconditioned",
    HelmetField.INTERVAL: "recertify every|recertification interval|interval",
    HelmetField.LIFE: "life|service life|years of life|life years",
    HelmetField.STORE: "store|room|kept in|location|where",
    HelmetField.BUILD_NOW: "build now|current build|pads now|pads|in the helmet now|in it now",
    HelmetField.GUARD: "face guard|guard",
    HelmetField.STRAP: "chin strap|strap",
    HelmetField.NOTES: "notes|note|comment|comments|remark|remarks",
}

DATES: Mapping[HelmetField, str] = {
    HelmetField.MADE: "made_on",
    HelmetField.BOUGHT: "bought_on",
    HelmetField.FIRST_CERTIFIED: "first_certified_on",
    HelmetField.RECERTIFIED: "recertified_on",
}
"""Columns that hold a day, and the name under which it is kept."""

_KNOWN = {name: field for field, names in HELMET_SYNONYMS.items() for name in names.split("|")}


def read_helmet_header(cells: Sequence[str]) -> tuple[tuple[str, HelmetField | None], ...]:
    """Each heading, and what its column holds; None where that is not known."""
    return tuple((printable(cell), _field(cell)) for cell in cells)


def _field(heading: str) -> HelmetField | None:
    words = " ".join(printable(heading).lower().replace("_", " ").split())
    bare = without_unit(words)[0]
    for candidate in (words, bare):
        found = _KNOWN.get(candidate.strip(" .:").replace(".", ""))
        if found is not None:
            return found
    return None
