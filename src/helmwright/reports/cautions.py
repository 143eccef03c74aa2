"""What every output says once: who decides, and what the chances rest on."""

CAUTIONS = (
    (
        "These are proposals from what was measured, and forecasts where nothing was; nothing"
        " here is a safety score. A trained person must check every helmet on the player's head."
    ),
    (
        "The helmet maker's instructions, the rules in force and licensed reconditioners decide;"
        " where this page differs, they win. Use only parts that the maker lists for the model,"
        " and issue only a helmet whose certification is current: none lapsed, uncertified or"
        " on hold."
    ),
    (
        "No helmet prevents every head or neck injury. Headache, dizziness, numbness, neck pain or"
        " anything after a hit: stop, and send the player to the athletic trainer or a physician."
    ),
)

ASSUMED = (
    "Assumed, not measured: the limits of loose, snug and tight, the strap's pull, the scatter"
    " of the foam and what a fitter can feel. Every chance leans on them."
)

HEAD_ASSUMED = (
    "Assumed, not measured: the step from the surveys' tape to the tape used in equipment"
    " rooms, and some of the ties between measures. The intervals lean on them."
)
