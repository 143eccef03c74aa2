"""What every output says once: who decides, and what the chances rest on.

Each is two lines of a page of 80 columns at most, so that it is read.
"""

CAUTIONS = (
    (
        "Proposals and forecasts; nothing here is a safety score. A trained person must check every"
        " helmet on the player's head."
    ),
    (
        "The maker's instructions, rules in force and licensed people win. Only parts listed for"
        " the model; only helmets now certified, none lapsed or on hold."
    ),
    (
        "No helmet prevents every head or neck injury. Headache, dizziness, numbness, neck pain,"
        " anything after a hit: stop, see athletic trainer or physician."
    ),
)

ASSUMED = (
    "Assumed: the limits of loose, tight and brow height, a head's bumps, strap, foam and hair,"
    " what a fitter can feel. Every chance leans on them."
)

IN_A_TABLE = (
    "Proposals, not a safety score: a trained person must check every helmet on the player's head;"
    " the other cautions stand on the page, which the same command prints without --csv."
)
"""What a table says in its last row, where a page has the room for all of it."""

HEAD_ASSUMED = (
    "Assumed, not measured: the step from the surveys' tape to the tape used in equipment"
    " rooms, and some of the ties between measures. The intervals lean on them."
)
