"""What is worn between pads and scalp, hair or a cap, as the readings say that they went over."""

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadEstimate, Over
from helmwright.anatomy.reading import LAYER, combined
from helmwright.catalogue.foam import Foam
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]

COVERING = Foam(
    key="covering",
    strain=(0.0, 0.3, 0.6, 0.8),
    stress_kpa=(0.0, 1.0, 4.0, 12.0),
    beyond_kpa=200.0,
    source=ASSUMED,
    scatter=0.3,
)
"""Hair or cloth under a pad, as thick as the tape left it."""

_TAPE = "tape_circumference"


def worn_over(estimate: HeadEstimate) -> Over:
    """What will be worn under the helmet: the thickest thing that a reading was taken over."""
    over = {reading.over for reading in estimate.readings if reading.over in LAYER}
    return max(over, key=lambda kind: LAYER[kind].value, default=Over.BARE)


def covering_layers(worn: Over) -> tuple[tuple[Foam, float], ...]:
    """Foam and free thickness [mm] of what is worn; none on a bare head."""
    return ((COVERING, LAYER[worn].value),) if worn in LAYER else ()


def worn_tape(estimate: HeadEstimate, count: int, rng: np.random.Generator) -> Floats:
    """Draws of the tape over what will be worn, which is what a size chart means, (count,) [mm].

    Notes
    -----
    A tape taken over it is itself the answer, within its error. Without one, the covering goes
    around the estimated head: 2 pi times its thickness.
    """
    worn = worn_over(estimate)
    if worn not in LAYER:
        return estimate.draw(count, rng).of(_TAPE)
    for group in combined(estimate.readings):
        if group.measure == _TAPE and group.over is worn:
            error = np.sqrt(group.variance_mm2) * rng.standard_normal(count)
            return np.asarray(group.value_mm + error)
    return np.asarray(estimate.draw(count, rng).of(_TAPE) + 2.0 * np.pi * LAYER[worn].value)
