"""Changes by rule of thumb: every wrong zone a step the right way, and variants of that."""

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.finding import Grade
from helmwright.fit.neighborhood import Pads, is_allowed
from helmwright.fit.next_build_found import RING, Found

Steps = dict[Zone, int]
"""By zone, how many thicknesses up; down where negative."""

_SIDES = (Zone.LEFT, Zone.RIGHT)


def by_rule(found: Found, sheet: ModelSheet, pads: Pads) -> list[Pads]:
    """Builds that answer the findings by rule, the plainest first; none where nothing is wrong.

    Parameters
    ----------
    found
        What was found on the build.
    sheet, pads
        The model and the build.

    Notes
    -----
    A loose zone takes a thicker pad and a tight one a thinner one; a helmet too low on the brow
    takes a thicker crown pad (common practice, no source). The variants: all of it by two steps,
    each alone by one and by two, all with one of them by two, and without the crown. A crown that
    is tight or loose by itself is answered at the sides as well, which carry what it does not. A
    helmet that is loose or tight as a whole takes that all around.
    """
    steps = _steps(found)
    plans = [steps, _times(steps, 2)]
    plans += [{zone: by * k} for zone, by in steps.items() for k in (1, 2)]
    plans += [{**steps, zone: 2 * by} for zone, by in steps.items()]
    plans.append({zone: by for zone, by in steps.items() if zone is not Zone.CROWN})
    plans += _crown_by_sides(found, steps)
    if found.whole is not Grade.RIGHT:
        plans.append({**steps, **dict.fromkeys(RING, -int(found.whole))})
    moved = [_moved(sheet, pads, plan) for plan in plans]
    return [one for one in dict.fromkeys(moved) if one != pads and is_allowed(sheet, one)]


def _steps(found: Found) -> Steps:
    steps = {zone: -int(grade) for zone, grade in found.wrong.items()}
    if found.brow is not Grade.RIGHT:
        steps[Zone.CROWN] = -int(found.brow)
    return steps


def _times(steps: Steps, factor: int) -> Steps:
    return {zone: factor * by for zone, by in steps.items()}


def _crown_by_sides(found: Found, steps: Steps) -> list[Steps]:
    """A crown that is tight hangs on too loose sides, and the other way around."""
    crown = found.wrong.get(Zone.CROWN)
    if crown is None:
        return []
    rest: Steps = {zone: by for zone, by in steps.items() if zone is not Zone.CROWN}
    sides = {side: int(crown) for side in _SIDES if side not in found.wrong}
    return [rest | sides]


def _moved(sheet: ModelSheet, pads: Pads, steps: Steps) -> Pads:
    """The build with those steps, as far as there are pads; zones that must match go along."""
    by = dict(steps)
    for pair in sheet.matched:
        for one, other in (pair, pair[::-1]):
            if one in steps and other not in steps:
                by[other] = steps[one]
    most = [len(kind.thicknesses_mm) - 1 for kind in sheet.pads]
    return tuple(
        min(max(pad + by.get(zone, 0), 0), last)
        for zone, pad, last in zip(ZONES, pads, most, strict=True)
    )
