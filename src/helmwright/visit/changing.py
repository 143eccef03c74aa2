"""How to change parts, step by step, at the moment of a change."""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources

from helmwright.catalogue.changing import PartKind
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import Build
from helmwright.fit.search import origin
from helmwright.visit.check import Check, Part
from helmwright.visit.protocol import MAKER, Protocol, has_air, protocol_for

_FILE = resources.files("helmwright.visit") / "changing.toml"

PARTS: dict[PartKind, Part] = {
    PartKind.CROWN: Part.CROWN,
    PartKind.RING: Part.PAD,
    PartKind.NAPE: Part.PAD,
    PartKind.JAW: Part.JAW,
    PartKind.AIR: Part.AIR,
    PartKind.STRAP: Part.STRAP,
    PartKind.GUARD: Part.GUARD,
    PartKind.SHELL: Part.SHELL,
}
"""What a check calls each kind of part in its list of what it is repeated after."""

USUAL_STEPS = "the usual way, from memory; the maker's instructions come first"
"""What a person reads above steps that are not the maker's."""

_ORDER = (PartKind.CROWN, PartKind.RING, PartKind.NAPE, PartKind.JAW)


@dataclass(frozen=True, slots=True)
class ChangeStep:
    """One thing to do, and where that comes from."""

    says: str
    source: str


@dataclass(frozen=True, slots=True)
class Swap:
    """One pad out, another in.

    Parameters
    ----------
    zone
        Where; left and right are the wearer's.
    out, into
        What is written on the bags of the old and the new pad.
    part_number
        What the new one is ordered by, where the sheet says so.
    """

    zone: Zone
    out: str
    into: str
    part_number: str = ""


@dataclass(frozen=True, slots=True)
class PartChange:
    """One kind of part to be changed.

    Parameters
    ----------
    kind
        Which.
    swaps
        The pads of that kind, zone by zone; empty for what is no pad.
    steps
        What to do, one after the other.
    by_maker
        Whether the steps are the maker's own.
    again
        The checks that must be asked again after it.
    shell
        The new shell's number, where that is what changes.
    """

    kind: PartKind
    swaps: tuple[Swap, ...]
    steps: tuple[ChangeStep, ...]
    by_maker: bool
    again: tuple[Check, ...]
    shell: int | None = None

    @property
    def whose(self) -> str:
        """Whose steps they are, as a person reads it."""
        return "the maker's own steps" if self.by_maker else USUAL_STEPS


def how_to_change(sheet: ModelSheet, kind: PartKind) -> tuple[tuple[ChangeStep, ...], bool]:
    """The steps for a kind of part, and whether they are the maker's own."""
    own = sheet.change_instruction(kind)
    if own is not None:
        return tuple(ChangeStep(says, MAKER) for says in own.steps), True
    return usual_steps()[kind], False


def changing_steps(
    sheet: ModelSheet, before: Build, after: Build, *, protocol: Protocol | None = None
) -> tuple[PartChange, ...]:
    """What to change from one build to another, and how, kind by kind.

    Parameters
    ----------
    sheet
        The model.
    before, after
        What is in the helmet, and what is to be in it.
    protocol
        The checks, of which each change names those to ask again; the sheet's usual ones where
        left out.

    Returns
    -------
    tuple of PartChange
        Another shell first, then pads, then the air, which is filled anew; empty where the two
        builds are the same. Another shell arrives with its delivered pads; the swaps count from
        those.

    Raises
    ------
    KeyError
        Where the sheet has no such shell.
    """
    if before == after:
        return ()
    protocol = protocol or protocol_for(sheet)
    found = []
    if after.shell != before.shell:
        number = sheet.shell(after.shell).number
        found.append(_change(sheet, protocol, PartKind.SHELL, shell=number))
    swaps = _swaps(sheet, origin(after, before, sheet), after)
    for kind in _ORDER:
        mine = tuple(each for each in swaps if PartKind.of(each.zone) is kind)
        found += [_change(sheet, protocol, kind, mine)] if mine else []
    if has_air(sheet):
        found.append(_change(sheet, protocol, PartKind.AIR))
    return tuple(found)


def on_the_spot(sheet: ModelSheet, check: Check, protocol: Protocol) -> tuple[PartChange, ...]:
    """What putting a bad answer right may change without another build, and how.

    Parameters
    ----------
    sheet, protocol
        The model and its checks.
    check
        The check that came out bad.
    """
    kinds = [kind for kind, part in PARTS.items() if part in check.changes]
    return tuple(_change(sheet, protocol, kind) for kind in kinds)


def _change(
    sheet: ModelSheet,
    protocol: Protocol,
    kind: PartKind,
    swaps: tuple[Swap, ...] = (),
    *,
    shell: int | None = None,
) -> PartChange:
    steps, by_maker = how_to_change(sheet, kind)
    again = protocol.repeated_after([PARTS[kind]])
    return PartChange(kind, swaps, steps, by_maker, again, shell)


def _swaps(sheet: ModelSheet, before: Build, after: Build) -> tuple[Swap, ...]:
    found = []
    for zone in after.changes_from(before):
        pad, place = sheet.pad(zone), ZONES.index(zone)
        new = after.pads[place]
        number = pad.part_numbers[new] if pad.part_numbers else ""
        found.append(Swap(zone, pad.labels[before.pads[place]], pad.labels[new], number))
    return tuple(found)


@cache
def usual_steps() -> dict[PartKind, tuple[ChangeStep, ...]]:
    """The usual steps of every kind of part, as the package carries them."""
    data = tomllib.loads(_FILE.read_text(encoding="utf-8"))
    return {
        PartKind(part["kind"]): tuple(ChangeStep(**step) for step in part["steps"])
        for part in data["part"]
    }
