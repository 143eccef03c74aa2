"""How heads lie side by side: where each quantity of each lane is kept, and how lanes compile.

`work` holds what belongs to a lane, `rows[i]` what belongs to contact i in a lane; both are flat,
quantity by quantity, so that the loop over lanes reads and writes neighbors. Constant places
instead of views, single assignment, selection instead of branches and tuples instead of small
loops are what lets the compiler do a whole vector of lanes at once; a check for division by zero
or a call that is not inlined would stop it without a word.
"""

import numpy as np
import numpy.typing as npt
from numba import njit

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]
Bits = npt.NDArray[np.bool_]
Six = tuple[float, float, float, float, float, float]

LANES = 16
"""With 8 the compiler finds a vector not worth its while; 32 leave more waiting at the end."""

HINGES = 16
"""Hinges of a pad's law; the loop over them is written out."""

# In `work`: the pose accepted, the one tried, the step between them and the share of it taken.
POSE, TRIAL, STEP, SHARE = 0, 6, 12, 18
# Slope along the step before it, trials of this step, steps of this phase.
BEFORE, TRIES, COUNT = 19, 20, 21
# Coefficient of friction, drag kept where a phase begins (else -1), whether caps are followed.
FRICTION, KEPT, FOLLOW = 22, 23, 24
# Height of the linearization, what became of the phase, load, and what `gather` adds up.
LIFT, DONE, LOAD, GRADIENT, JACOBIAN = 25, 26, 27, 33, 39
WORK_SIZE = 75 * LANES

# In a contact's row: normal, stroke at the pose of the drawing, N per kPa, anchor.
NORMAL, BASE, STIFFNESS, ANCHOR = 0, 3, 4, 5
ROW_SIZE = 8 * LANES

# What became of a phase.
SETTLED, GAVE_UP = 1.0, 2.0

compiled = njit(cache=True, error_model="numpy", nogil=True, fastmath={"contract", "nsz"})
inlined = njit(
    cache=True, error_model="numpy", nogil=True, fastmath={"contract", "nsz"}, forceinline=True
)


@compiled
def at_cache_line(count: int) -> Floats:
    """Zeros that begin where a cache line does, so that no vector straddles two."""
    whole = np.zeros(count + 8)
    skip = (-(whole.ctypes.data // 8)) % 8
    return whole[skip : skip + count]


@inlined
def read_six(work: Floats, at: int) -> Six:
    """Six quantities of one lane, the first of them at a place."""
    w = LANES
    return (
        work[at], work[at + w], work[at + 2 * w],
        work[at + 3 * w], work[at + 4 * w], work[at + 5 * w],
    )  # fmt: skip


@inlined
def write_six(work: Floats, at: int, values: Six) -> None:
    """Write six quantities of one lane."""
    w = LANES
    work[at], work[at + w], work[at + 2 * w] = values[0], values[1], values[2]
    work[at + 3 * w], work[at + 4 * w], work[at + 5 * w] = values[3], values[4], values[5]
