"""What others changed while a page of the doors was open, in words."""

from collections.abc import Callable
from datetime import datetime

from helmwright.records.meanwhile import Meanwhile, MeanwhileError
from helmwright.records.words import since


def meanwhile_words(
    error: MeanwhileError, shown: Callable[[Meanwhile], str], *, now: datetime
) -> str:
    """Who changed what and when, and that nothing was done."""
    told = []
    for each in error.found:
        when = f" {since(each.at, now=now)}" if each.at else ""
        told.append(f"changed by {each.by or 'somebody'}{when}, after you opened this page:"
                    f" {shown(each)} now")  # fmt: skip
    words = "; ".join(told)
    return f"{words[:1].upper()}{words[1:]}. Nothing was done. Save it again where yours holds."
