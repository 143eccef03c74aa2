"""The two populations that the surveys tell apart."""

from enum import StrEnum


class Sex(StrEnum):
    """Which survey tables a head is drawn from, where the person says so."""

    MALE = "male"
    FEMALE = "female"
