"""A model sheet written from a few answers: chart, pads, ages, insides where there are any."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field

from helmwright.catalogue.insides import INSIDE_NUMBERS
from helmwright.catalogue.zone import ZONES, Zone

HEAD = """\
# A model sheet. Every key is explained in docs/reference/model-sheet.md.
# What is not written here is taken as usual, and every page says so: insides, pad areas, foams,
# where the pads bear, mass, strap. Add what you find out.

format = 1
"""

NO_PAD = "no pad there"


@dataclass(frozen=True, slots=True)
class DraftPads:
    """The thicknesses of one zone as written on the bags, thin to thick, and the delivered one.

    `delivered` is "" where nobody knows.
    """

    labels: tuple[str, ...]
    delivered: str = ""


@dataclass(frozen=True)
class SheetDraft:
    """What somebody knows of a helmet.

    Parameters
    ----------
    model
        Its name.
    bands
        Both ends of every shell's band as written, smallest shell first.
    pads
        By zone; None where there is no pad.
    ages
        Youngest and oldest age it is made for [years]; None for adults.
    insides
        For each shell the inside numbers that somebody measured, as written, by their keys.
    """

    model: str
    bands: tuple[tuple[str, str], ...]
    pads: Mapping[Zone, DraftPads | None]
    ages: tuple[int, int] | None = None
    insides: tuple[Mapping[str, str], ...] = field(default=())

    def __post_init__(self) -> None:
        """Refuse a draft that no sheet can be made of."""
        if not self.bands or set(self.pads) != set(ZONES):
            raise ValueError("a draft needs a shell, and a word on every zone")
        if len(self.insides) not in (0, len(self.bands)):
            raise ValueError("a draft has insides for every shell or for none")


def draft_text(draft: SheetDraft) -> str:
    """The sheet as TOML."""
    top = [f"model = {_text(draft.model)}"]
    if draft.ages:
        top.append(f"ages = [{draft.ages[0]}, {draft.ages[1]}]")
    insides = draft.insides or ({},) * len(draft.bands)
    shells = [
        _shell(number, band, inside)
        for number, (band, inside) in enumerate(zip(draft.bands, insides, strict=True), start=1)
    ]
    pads = [_pad(zone, given) for zone, given in draft.pads.items() if given is not None]
    parts = [HEAD + "\n".join(top) + "\n", *shells, *pads]
    bare = [zone for zone, given in draft.pads.items() if given is None]
    if bare:
        parts.append("\n".join(["[without_pad]", *(f'"{zone}" = "{NO_PAD}"' for zone in bare), ""]))
    return "\n".join(parts)


def _shell(number: int, band: tuple[str, str], inside: Mapping[str, str]) -> str:
    lines = ["[[shell]]", f"number = {number}", f"chart = [{_text(band[0])}, {_text(band[1])}]"]
    lines += [f"{key} = {_text(inside[key])}" for key in INSIDE_NUMBERS if key in inside]
    return "\n".join([*lines, ""])


def _pad(zone: Zone, pads: DraftPads) -> str:
    labels = ", ".join(_text(label) for label in pads.labels)
    lines = ["[[pad]]", f'zone = "{zone}"', f"thicknesses = [{labels}]"]
    if pads.delivered:
        lines.append(f"delivered = {_text(pads.delivered)}")
    return "\n".join([*lines, ""])


def _text(word: str) -> str:
    """A text between quotation marks; what JSON escapes, TOML reads alike."""
    return json.dumps(word, ensure_ascii=False)
