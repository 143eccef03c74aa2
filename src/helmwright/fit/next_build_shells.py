"""Which other shells are in question once a helmet has been on the head."""

import numpy as np
import numpy.typing as npt

from helmwright.anatomy.measures import TAPE_LAYERS
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.chart import POSSIBLE, charted_shell
from helmwright.fit.finding import Grade
from helmwright.fit.next_build_found import Found
from helmwright.fit.next_build_tally import Drawn
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

RING_WRONG = Figure(
    3.0, "1", ASSUMED, note="zones of four around that are all loose or all tight: another shell"
)
LITTLE_LEFT = Figure(
    0.2, "1", ASSUMED, note="best chance in a shell below which its neighbors are looked at"
)

_TAPE = "tape_circumference"


def shells_in_question(
    drawn: Drawn, sheet: ModelSheet, current: int, found: Found, best: float
) -> list[int]:
    """Shells beside the current one that are worth a look.

    Parameters
    ----------
    drawn
        What is believed.
    sheet, current
        The model and the shell on the head.
    found
        What was found.
    best
        The best chance that a build of the current shell is found right [1].

    Notes
    -----
    A neighbor is looked at where the chart gives it POSSIBLE of the draws, where RING_WRONG zones
    of the ring ask for it, and both where little is left in the current shell. The chart is read
    off the bare head's tape here.
    """
    charted, asked = _charted(drawn, sheet), {-1: Grade.UNDER, 1: Grade.OVER}
    near = [
        number
        for side, number in _neighbors(sheet, current).items()
        if found.ring(asked[side]) >= RING_WRONG.value or best < LITTLE_LEFT.value
    ]
    possible = [number for number, share in charted.items() if share >= POSSIBLE.value]
    return [number for number in dict.fromkeys([*near, *possible]) if number != current]


def shells_near(drawn: Drawn, sheet: ModelSheet, current: int) -> list[int]:
    """The current shell, its neighbors, and every other that the chart makes possible."""
    charted = _charted(drawn, sheet)
    possible = [number for number, share in charted.items() if share >= POSSIBLE.value]
    return list(dict.fromkeys([current, *_neighbors(sheet, current).values(), *possible]))


def _neighbors(sheet: ModelSheet, current: int) -> dict[int, int]:
    """The next smaller shell at -1 and the next larger at 1, where there are such."""
    numbers = [shell.number for shell in sheet.shells]
    place = numbers.index(current)
    return {s: numbers[place + s] for s in (-1, 1) if 0 <= place + s < len(numbers)}


def _charted(drawn: Drawn, sheet: ModelSheet) -> dict[int, float]:
    """Of how many draws the chart names each shell [1]."""
    given = charted_shell(sheet, worn_tape_of(drawn))
    return {shell.number: float(np.mean(given == shell.number)) for shell in sheet.shells}


def worn_tape_of(drawn: Drawn) -> npt.NDArray[np.float64]:
    """Each draw's tape over what will be worn, which is what a size chart means, (n,) [mm]."""
    heads = drawn.heads
    around = sum((heads.firm(kind) for kind in drawn.estimate.worn), np.zeros(len(heads)))
    return np.asarray(heads.of(_TAPE) + TAPE_LAYERS * around)
