"""The whole sheet."""

import tomllib
from collections.abc import Sequence
from typing import Any

from helmwright.catalogue.foams import CUSHION
from helmwright.catalogue.parts import ChinStrap, FaceGuard, Hardware
from helmwright.catalogue.reading.changing import read_changing
from helmwright.catalogue.reading.fault import SheetError, SheetFault, syntax_fault
from helmwright.catalogue.reading.foams import read_foams
from helmwright.catalogue.reading.insides import check_hollows, read_insides
from helmwright.catalogue.reading.pads import absent_pad, read_pads
from helmwright.catalogue.reading.parts import (
    read_exclusion,
    read_guard,
    read_hardware,
    read_instruction,
    read_strap,
)
from helmwright.catalogue.reading.positions import line_index
from helmwright.catalogue.reading.presses import read_presses
from helmwright.catalogue.reading.shells import read_shells
from helmwright.catalogue.reading.table import Report, Table, shown
from helmwright.catalogue.sheet import BETWEEN_BANDS, ModelSheet, PadKind
from helmwright.catalogue.usual import USUAL_STRAP_PULL, is_youth
from helmwright.catalogue.zone import ZONES, Zone

FORMAT = 1
"""The format that this version reads."""

_AGES = "the youngest and the oldest age in years, such as [8, 14]; leave it out for adults"

_MATCHED = 'pairs of zones, such as [["left", "right"]]'


def parse_sheet(text: str, *, name: str) -> ModelSheet:
    """Read a model sheet and check it.

    Parameters
    ----------
    text
        The sheet's text, TOML.
    name
        What to call it in messages, usually the file's name.

    Returns
    -------
    ModelSheet
        The sheet, every check passed.

    Raises
    ------
    SheetError
        With every fault, in the order of its lines.
    """
    text = text.removeprefix("\ufeff")
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise SheetError(name, (syntax_fault(error, text),)) from None
    except ValueError:  # Python reads no whole number of more than some thousand digits.
        endless = SheetFault(
            1, "", "a number has thousands of digits", "Write a number that counts"
        )
        raise SheetError(name, (endless,)) from None
    report = Report(line_index(text))
    sheet = _sheet(Table(data, (), "", report))
    if sheet is None or report.faults:
        # Some sections are read twice, for themselves and for what others need to know of them.
        faults = dict.fromkeys(report.faults)
        raise SheetError(name, tuple(sorted(faults, key=lambda fault: fault.line)))
    return sheet


def _sheet(root: Table) -> ModelSheet | None:
    """The sheet, with faults noted; None where it cannot even be put together."""
    _check_format(root)
    own, without = _pads(root)
    own, presses = read_presses(root.tables("press", optional=True), own)
    facts = _facts(root)
    pads = {zone: own[zone] if zone in own else absent_pad(zone, CUSHION) for zone in ZONES}
    rows = read_shells(root.tables("shell"), youth=is_youth(facts["ages"]))
    form_table = root.table("form", optional=True)
    form, shells, insides = read_insides(form_table, rows, pads, facts["ages"])
    check_hollows(form_table, form, shells)
    parts = _parts(root)
    matched = _matched(root, own)
    root.close()
    if root.report.faults:
        return None
    return ModelSheet(
        shells=tuple(shell for _, shell in shells),
        form=form,
        pads=tuple(pads.values()),
        matched=matched,
        insides=insides,
        without_pad=without,
        presses=presses,
        **facts,
        **parts,
    )


def _check_format(root: Table) -> None:
    """Note a sheet of another format."""
    number = root.take("format", f"{FORMAT}, on a line of its own above all sections")
    if number is not None and number != FORMAT:
        wrong = f"format {shown(number)} is not known to this version"
        root.fault("format", wrong, f"Write format = {FORMAT}, or use a newer version")


def _facts(root: Table) -> dict[str, Any]:
    """What the sheet says of the model as a whole."""
    pull = root.table("strap_pull", optional=True)
    certification = root.table("certification", optional=True)
    facts = {
        "model": root.text("model", "the model's name"),
        "invented": root.flag("invented", "true only where no such helmet exists", default=False),
        "note": root.text("note", "anything else worth knowing", default=""),
        "between_bands": root.text(
            "between_bands",
            "which shell a reading between two bands takes",
            default=BETWEEN_BANDS[0],
            choices=BETWEEN_BANDS,
        ),
        "strap_pull_n": _pull(pull),
        "strap_assumed": "strap_pull" not in root.data,
        "ages": _ages(root),
    }
    return facts | _certification(certification)


def _pull(table: Table | None) -> tuple[float, float]:
    """What the strap pulls forward and down [N]; the usual where the sheet says nothing."""
    if table is None:
        return USUAL_STRAP_PULL[0].value, USUAL_STRAP_PULL[1].value
    pull = (
        table.number("forward_n", -20.0, 60.0, "newtons"),
        table.number("down_n", 0.0, 100.0, "newtons"),
    )
    table.close()
    return pull


def _ages(root: Table) -> tuple[float, float] | None:
    """For whom the model is made [years]; None for adults."""
    if not root.may_have("ages"):
        return None
    before = len(root.report.faults)
    ages = root.numbers("ages", 5, 25, _AGES)
    if len(root.report.faults) > before:
        return None
    if len(ages) != 2 or ages[0] >= ages[1]:
        root.fault("ages", f"{shown(list(ages))} is no span of ages", f"Write {_AGES}")
        return None
    return ages[0], ages[1]


def _certification(table: Table | None) -> dict[str, Any]:
    """The maker's recertification interval and life."""
    if table is None:
        return {}
    certification = {
        "recertification_months": table.whole("recertify_every_months", 1, 120),
        "life_years": table.number("life_years", 1, 30, "years"),
    }
    table.close()
    return certification


def _pads(root: Table) -> tuple[dict[Zone, PadKind], tuple[tuple[Zone, str], ...]]:
    """The zones' pads, and the zones without, with the reason."""
    foams = read_foams(root.tables("foam", optional=True))
    absent = root.table("without_pad", optional=True)
    pads = read_pads(root.tables("pad"), absent, root, foams)
    reasons = absent.data.items() if absent and absent.sound else ()
    return pads, tuple((Zone(zone), reason) for zone, reason in reasons)


def _parts(root: Table) -> dict[str, Any]:
    """Face guards, straps, hardware, what excludes what, and the maker's instructions."""
    numbers = tuple(each.data["number"] for each in root.tables("shell") if "number" in each.data)
    guards = [(each, read_guard(each, numbers)) for each in _optional(root, "face_guard")]
    straps = [(each, read_strap(each, numbers)) for each in _optional(root, "chin_strap")]
    hardware = [(each, read_hardware(each)) for each in _optional(root, "hardware")]
    names = _names([*guards, *straps, *hardware])
    instructions = [read_instruction(each) for each in _optional(root, "instruction")]
    return {
        "face_guards": tuple(guard for _, guard in guards),
        "chin_straps": tuple(strap for _, strap in straps),
        "hardware": tuple(piece for _, piece in hardware),
        "exclusions": tuple(read_exclusion(each, names) for each in _optional(root, "exclusion")),
        "instructions": tuple(each for each in instructions if each is not None),
        "changing": read_changing(_optional(root, "changing")),
    }


def _optional(root: Table, key: str) -> list[Table]:
    return root.tables(key, optional=True)


def _names(parts: Sequence[tuple[Table, FaceGuard | ChinStrap | Hardware]]) -> set[str]:
    """The names of all parts, noting one that is used twice."""
    names: set[str] = set()
    for table, part in parts:
        if part.name and part.name in names:
            wrong = f'another part is called "{part.name}" too'
            table.fault("name", wrong, "Give each part its own name")
        names.add(part.name)
    return names


def _matched(root: Table, pads: dict[Zone, PadKind]) -> tuple[tuple[Zone, Zone], ...]:
    """The pairs of zones that must carry the same thickness."""
    pairs = []
    for place, pair in enumerate(root.listed("matched", _MATCHED, optional=True, empty=True)):
        if not _is_mirror_pair(pair):
            wrong = f"{shown(pair)} is no pair of mirrored zones"
            right = 'Write ["left", "right"] or ["jaw left", "jaw right"]'
            root.fault("matched", wrong, right, item=place)
            continue
        one, other = Zone(pair[0]), Zone(pair[1])
        if one in pads and other in pads and _thicknesses(pads[one]) != _thicknesses(pads[other]):
            wrong = f"{one} and {other} must match, but their thicknesses differ"
            right = f"Give the {one} pad and the {other} pad the same list of thicknesses"
            root.fault("matched", wrong, right, item=place)
        pairs.append((one, other))
    return tuple(pairs)


def _thicknesses(pad: PadKind) -> list[float]:
    return [round(thickness, 2) for thickness in pad.thicknesses_mm]


def _is_mirror_pair(pair: Any) -> bool:
    """Whether a value names a zone on the left or right and the one it mirrors."""
    if (
        not isinstance(pair, list)
        or len(pair) != 2
        or not all(each in list(ZONES) for each in pair)
    ):
        return False
    return Zone(pair[0]).mirrored is Zone(pair[1]) and pair[0] != pair[1]
