"""`helmwright sheet press`: what thicknesses under known weights say of a pad."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import json
import re
from typing import TYPE_CHECKING

import click

from helmwright.cli.choices import read_file
from helmwright.cli.stop import NothingRan
from helmwright.cli.written_answers import with_unit

if TYPE_CHECKING:
    from helmwright.catalogue import ModelSheet


@click.command(short_help="Calibrate a pad's soft layer with a kitchen scale.")
@click.argument("file")
@click.argument("points", nargs=-1, required=True)
@click.option("--zone", required=True, metavar="ZONE", help="The zone whose pad was pressed.")
@click.option("--pad", required=True, metavar="THICKNESS", help="Its thickness, as on the bag.")
@click.option(
    "--plate",
    required=True,
    metavar="SIZE",
    help='Size of the plate, such as "3 x 2 in", or "3 in" for a round one.',
)
@click.option("--also", multiple=True, metavar="ZONE", help="Another zone with the same foam.")
@click.option("--reading-error", metavar="LENGTH", help="Error of a thickness; 0.4 mm unless said.")
@click.option(
    "--layer-error",
    metavar="LENGTH",
    help="How far the sheet's fit layer may be off; it is estimated as well then.",
)
@click.option("--by", metavar="TEXT", help="Who pressed it, and when.")
def press(
    *,
    file: str,
    points: tuple[str, ...],
    zone: str,
    pad: str,
    plate: str,
    also: tuple[str, ...],
    reading_error: str | None,
    layer_error: str | None,
    by: str | None,
) -> None:
    """Say what POINTS, thicknesses under weights, mean for the model sheet FILE.

    Lay the pad on a kitchen scale, soft side up; set the scale to zero; put a stiff plate of known
    size on it and press, from no weight upward; read scale and thickness a few seconds after. Each
    point is a weight and a thickness with a colon between; bare lengths are inches, weights name
    their unit. For example:

    helmwright sheet press mine.toml --zone front --pad "7/8 in" --plate "3 x 2 in" "0 lb: 7/8 in"
    "1 lb: 27/32 in" "2 lb: 25/32 in" "4 lb: 11/16 in"
    """
    from helmwright.cli.terminal import page_width
    from helmwright.cli.writing import print_text
    from helmwright.reports.press_page import press_page

    text = _text(file)
    before = _sheet(text, file)
    label = _label(before, zone, pad)
    block = _block(zone, label, plate, also, points, reading_error, layer_error, by)
    after = _sheet(f"{text.rstrip()}\n\n{block}", file, is_added=True)
    print_text(press_page(before, after, block, page_width()))


def _text(file: str) -> str:
    try:
        return read_file(file).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise NothingRan(f"{file} is not UTF-8 text; save it as UTF-8") from error


def _sheet(text: str, file: str, *, is_added: bool = False) -> "ModelSheet":
    """The sheet; its faults, or those of the added test without lines, stop the command."""
    from helmwright.catalogue import SheetError, parse_sheet

    try:
        return parse_sheet(text, name=file)
    except SheetError as error:
        if not is_added:
            raise NothingRan(str(error)) from error
        raise NothingRan("\n".join(fault.told for fault in error.faults)) from error


def _label(sheet: "ModelSheet", zone: str, pad: str) -> str:
    """The thickness as the sheet writes it, however it was typed; what it lacks stays as typed."""
    from helmwright.catalogue import ZONES
    from helmwright.cli.written_answers import AnswerError, one_of

    if zone not in list(ZONES):
        return pad
    try:
        return one_of(pad, sheet.pads[[str(each) for each in ZONES].index(zone)].labels)
    except AnswerError:
        return pad


def _block(
    zone: str, pad: str, plate: str, also: tuple[str, ...], points: tuple[str, ...],
    reading_error: str | None, layer_error: str | None, by: str | None,
) -> str:  # fmt: skip
    """The section that says the same in a sheet."""
    lines = ["[[press]]", f"zone = {_quoted(zone)}"]
    if also:
        lines.append(f"also = {_listed(also)}")
    lines += [f"pad = {_quoted(pad)}", f"plate = {_listed(_sides(plate))}", "points = ["]
    lines += [f"  {_listed(_pair(point))}," for point in points]
    lines.append("]")
    errors = {"reading_error": reading_error, "fit_layer_error": layer_error}
    extra = {key: value and with_unit(value) for key, value in errors.items()} | {"source": by}
    lines += [f"{key} = {_quoted(value)}" for key, value in extra.items() if value]
    return "\n".join(lines) + "\n"


def _sides(plate: str) -> list[str]:
    """The lengths of a size: "3 x 2 in" takes its unit for both."""
    parts = [part.strip() for part in re.split(r"\s*[x×]\s*|\s+by\s+", plate.strip())]
    unit = re.search(r"[a-z\"]+\.?$", parts[-1], re.IGNORECASE)
    bare = re.compile(r"[\d ./-]+")
    lent = [f"{part} {unit[0]}" if unit and bare.fullmatch(part) else part for part in parts]
    return [with_unit(part) for part in lent]


def _pair(point: str) -> list[str]:
    """Weight and thickness of one point.

    Raises
    ------
    NothingRan
        Where there is no colon between them.
    """
    weight, colon, thickness = point.partition(":")
    if not colon:
        raise NothingRan(
            f"{point!r} is no point; write a weight, a colon and a thickness, such as"
            ' "2 lb: 3/4 in"'
        )
    return [weight.strip(), with_unit(thickness)]


def _quoted(text: str) -> str:
    """A text as TOML writes it; JSON's form of one is TOML's, too."""
    return json.dumps(text, ensure_ascii=False)


def _listed(texts: list[str] | tuple[str, ...]) -> str:
    return "[" + ", ".join(_quoted(text) for text in texts) + "]"
