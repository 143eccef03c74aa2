"""What is assumed of face guard and chin strap, and what is checked on the head."""

from helmwright.catalogue.sheet import ModelSheet

ASSUMED_FACE = (
    "Assumed: where eye, nose tip and chin lie on a head so measured, usual bar thickness and edge"
    " of shell and cup, a guard's center of mass, 25 degrees as enough to see upward, the strap's"
    " pull. Two to three fingers before the nose is common practice; sources differ."
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
    "Check guard and strap on the head by the maker's instructions, which win: level line, both"
    " sides and up to the ball; mouth wide open; nothing rolls off when pulled from behind."
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
