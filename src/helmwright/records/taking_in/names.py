"""When two written names are one name, and when they look like one."""

import re
import unicodedata
from collections.abc import Iterable
from difflib import SequenceMatcher

LIKE = 0.85
"""Likeness of two names from which on one may be the other, misspelled (assumed)."""

_APART = re.compile(r"[\s,.]+")
_APOSTROPHES = re.compile("['’`´]")


def same_key(name: str) -> str:
    """The name without accents, capitals and blanks: equal for what is written as one name."""
    plain = unicodedata.normalize("NFKD", name.casefold())
    letters = "".join(sign for sign in plain if not unicodedata.combining(sign))
    return " ".join(filter(None, _APART.split(_APOSTROPHES.sub("", letters))))


def looks_like(key: str, others: Iterable[str]) -> list[str]:
    """Keys that share a word with this one and are nearly it, or are it in another order."""
    words = set(key.split())
    return [other for other in others if words & set(other.split()) and _is_near(key, other)]


def _is_near(one: str, other: str) -> bool:
    if sorted(one.split()) == sorted(other.split()):
        return True
    return SequenceMatcher(None, one, other).ratio() >= LIKE
