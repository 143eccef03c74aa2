"""The air cells of pads that are filled instead of chosen."""

from collections.abc import Iterable
from dataclasses import dataclass

from helmwright.catalogue.cell import SKIN_SHARE, SKIN_SHARES, SNUG_FEEL, AirCell
from helmwright.catalogue.reading.table import Table
from helmwright.catalogue.sheet import PadKind
from helmwright.catalogue.zone import Zone

_LEAST_REACH_MM = 2.0


@dataclass(frozen=True)
class CellRead:
    """A cell as the sheet has it, and the thickness of its pad when it is full [mm]."""

    cell: AirCell
    full_mm: float


def read_cell(pad: Table, zone: Zone) -> CellRead | None:
    """The air cell of a zone's pad, with faults noted; None where it cannot be put together."""
    table = pad.table("cell")
    if table is None:
        return None
    table.title = f"{zone} pad, cell"
    _refuse_thicknesses(pad)
    if zone is Zone.CROWN:
        wrong = "an air cell at the crown is not modeled: it carries the weight whatever its fill"
        pad.fault("cell", wrong, "Describe the crown's foam, in thicknesses that set the height")
    full, flat = table.length("full", 4.0, 80.0), table.length("flat", 1.0, 60.0)
    if table.sound and full - flat < _LEAST_REACH_MM:
        wrong = f"the full cell's {full:g} mm is not 2 mm above the flat one's {flat:g} mm"
        right = "Write the whole pad's thickness with the cell full, and with all air let out"
        table.fault("full", wrong, right)
    low, high = SKIN_SHARES
    bladder = table.text("bladder", "a name that connected cells share", default=str(zone))
    share = table.number("skin_share", low, high, "", default=SKIN_SHARE.value)
    snug = table.number("snug_kpa", 1.0, 5.5, "kPa", default=SNUG_FEEL.value)
    pump = table.number("pump_ml", 1, 500, "mL") if table.may_have("pump_ml") else None
    if not table.close():
        pad.sound = False
        return None
    return CellRead(AirCell(full - flat, bladder, share, snug, pump), full)


def check_bladders(pads: Iterable[tuple[Table, PadKind]]) -> None:
    """Note a cell that would have another pressure than the cells it is connected to."""
    first: dict[str, PadKind] = {}
    for table, pad in pads:
        if pad.cell is None:
            continue
        other = first.setdefault(pad.cell.bladder, pad)
        if other.cell and _pressures(other.cell) != _pressures(pad.cell):
            wrong = f'it shares the air of "{pad.cell.bladder}" with the {other.zone} pad, but not'
            wrong += " its pressure"
            right = f"Give both the same snug_kpa and skin_share, as on the {other.zone} pad"
            table.fault("cell", wrong, right)


def _pressures(cell: AirCell) -> tuple[float, float]:
    return cell.snug_kpa, cell.skin_share


def _refuse_thicknesses(pad: Table) -> None:
    """A cell is filled: what a foam pad's thicknesses say has no meaning for it."""
    for key in ("thicknesses", "delivered"):
        if pad.may_have(key):
            wrong = "a pad with an air cell is filled, not swapped"
            pad.fault(key, wrong, "Leave this out; full and flat under [pad.cell] say its reach")
