"""What is assumed of face guard and chin strap, and what is checked on the head."""

from helmwright.catalogue.sheet import ModelSheet

ASSUMED_FACE = (
    "Assumed: where eye, nose and chin lie, bars where the sheet is silent, how an upright bar"
    " bends, a guard's center of mass, 25 degrees as enough to see up, the strap's pull."
)
ASSUMED_STRAP = (
    "Assumed: where the chin lies on a head so measured, usual edge of shell and cup, the strap's"
    " pull."
)
CHECK_STRAP = (
    "Check the strap on the head by the maker's instructions, which win: mouth wide open; nothing"
    " rolls off when pulled from behind."
)
CHECK_FACE = (
    "Check on the head by the maker's instructions, which win: sight level, sideways and up;"
    " mouth wide open; no rolling off when pulled from behind."
)
CHECK_STRAP_ON_CARD = (
    "Where the chin lies is assumed: check the strap on the head, mouth open and shut, by the"
    " maker's instructions."
)
CHECK_ON_CARD = (
    "Places of eye, nose and chin are assumed: check guard and strap on the head, mouth open and"
    " shut, by the maker's instructions."
)


def assumed_of(sheet: ModelSheet | None) -> str:
    """What is assumed of guard and strap, as far as the sheet has them; else nothing."""
    if sheet is None or not (sheet.face_guards or sheet.chin_straps):
        return ""
    return ASSUMED_FACE if sheet.face_guards else ASSUMED_STRAP


def check_of(sheet: ModelSheet | None) -> str:
    """What to check of guard and strap on the head, likewise."""
    return CHECK_FACE if sheet is None or sheet.face_guards else CHECK_STRAP
