"""Labels: a helmet's own ID as a code and in letters, and what lies in a drawer."""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from helmwright.reports.paper.label_sheets import LabelSheet
from helmwright.reports.paper.typesetting import typeset

CORRECTION = "q"
"""Level of error correction: a quarter of the code may be scratched (ISO/IEC 18004)."""

QUIET_MODULES = 4
"""White edge around a code, as the standard asks [modules]."""


@dataclass(frozen=True, slots=True)
class HelmetLabel:
    """What a helmet's label says; no name stands on it.

    Parameters
    ----------
    code
        The helmet's own ID: what the code holds, and what stands beside it in letters.
    model
        The model, with "(invented)" where it is.
    shell
        The shell's number.
    until
        Until when it is certified, in words; empty where nobody knows.
    """

    code: str
    model: str
    shell: int
    until: str = ""


@dataclass(frozen=True, slots=True)
class DrawerLabel:
    """What a drawer's label says.

    Parameters
    ----------
    place
        Where the pads go, or what they are.
    size
        As written on the bag.
    store
        The store that the drawer is in.
    """

    place: str
    size: str
    store: str


def code_picture(text: str) -> bytes:
    """A QR code as SVG, black on white with its quiet edge; never the micro kind, which fewer read.

    Raises
    ------
    ValueError
        For an empty text.
    """
    import segno  # noqa: PLC0415 - loaded where it is used

    if not text:
        raise ValueError("a code needs something to hold")
    code = segno.make_qr(text, error=CORRECTION)
    written = io.BytesIO()
    code.save(written, kind="svg", border=QUIET_MODULES, scale=1, light="white", dark="black")
    return written.getvalue()


def helmet_labels(labels: Sequence[HelmetLabel], sheet: LabelSheet, *, skip: int = 0) -> bytes:
    """Labels of helmets as PDF.

    Parameters
    ----------
    labels
        In order.
    sheet
        What they are printed on.
    skip
        Labels of the first page that are used up already.

    Raises
    ------
    ValueError
        Without labels, or with more to skip than a page has.
    """
    pictures = {f"{each.code}.svg": code_picture(each.code) for each in labels}
    said = [
        {"kind": "helmet", "code": each.code, "file": f"{each.code}.svg", "until": each.until,
         "about": f"{each.model}, shell {each.shell}"}
        for each in labels
    ]  # fmt: skip
    return _set(said, sheet, skip, "Helmet labels", pictures)


def drawer_labels(labels: Sequence[DrawerLabel], sheet: LabelSheet, *, skip: int = 0) -> bytes:
    """Labels of drawers as PDF; raises as `helmet_labels`."""
    said = [
        {"kind": "drawer", "place": each.place, "size": each.size, "store": each.store}
        for each in labels
    ]
    return _set(said, sheet, skip, "Drawer labels", {})


def _set(
    said: Sequence[dict[str, Any]],
    sheet: LabelSheet,
    skip: int,
    title: str,
    pictures: dict[str, bytes],
) -> bytes:
    if not said:
        raise ValueError("there is nothing to print a label for")
    if not 0 <= skip < sheet.count:
        raise ValueError(f"{skip} labels to skip; a page has {sheet.count}")
    pages: list[list[dict[str, Any]]] = [[]]
    for place, each in enumerate(said, start=skip):
        if place and place % sheet.count == 0:
            pages.append([])
        left, top = sheet.corner_in(place)
        pages[-1].append({**each, "left": left, "top": top})
    data = {
        "title": title,
        "width": sheet.width_in,
        "height": sheet.height_in,
        "pages": pages,
    }
    return typeset("labels.typ", data, pictures)
