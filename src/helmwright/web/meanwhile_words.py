"""What others changed while a page was open, in words."""

from collections.abc import Callable
from datetime import datetime

from helmwright.records.meanwhile import Meanwhile, MeanwhileError
from helmwright.records.words import since


def changed_words(each: Meanwhile, stands: str, *, now: datetime) -> str:
    """Who changed it and when, as far as the ledger tells, and what stands there by now."""
    when = f" {since(each.at, now=now)}" if each.at else ""
    who = f"{each.by or 'somebody'}{when}"
    return f"Changed by {who}, after you opened this page: {stands} now."


def meanwhile_words(
    error: MeanwhileError, shown: Callable[[Meanwhile], str], *, now: datetime
) -> str:
    """The same of every field, and that nothing was done."""
    told = [changed_words(each, shown(each), now=now) for each in error.found]
    return " ".join([*told, "Nothing was done. Save it again where yours holds."])
