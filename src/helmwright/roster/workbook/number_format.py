"""A number as its cell shows it: with the percent sign, the fraction or the unit of its format."""

import re
from fractions import Fraction
from math import isfinite

BUILT_IN = {9: "0%", 10: "0.00%", 12: "# ?/?", 13: "# ??/??"}
"""Codes of the formats without a code of their own that matter here (ECMA-376, 18.8.30)."""

_SIXTY_FOURTHS = 64
_TOO_LONG = 1e15
_IGNORED = re.compile(r"\[[^\]]*\]|_.|\*.")
_LITERAL = re.compile(r'(?:"(?P<quoted>[^"]*)"|\\(?P<escaped>.))$')


def plain(number: float) -> str:
    """A number in the shortest decimals, without the noise of the last binary digits."""
    if not isfinite(number) or abs(number) >= _TOO_LONG:
        return repr(number)
    rounded = round(number, 9)
    return str(int(rounded)) if rounded == int(rounded) else repr(rounded)


def shown(number: float, code: str) -> str:
    """The number as a cell with this format code shows it, never rounded.

    Notes
    -----
    Of a format only what changes the meaning is followed: percent, fractions of a tape, padding
    with zeros, and the words behind the number, such as `0.0" cm"`. Colors, conditions and digits
    are not: what the cell holds counts, not how many digits of it are seen.
    """
    section = _IGNORED.sub("", code.partition(";")[0]).strip()
    section, words = _words_behind(section)
    bare = re.sub(r'"[^"]*"|\\.', "", section)
    if not isfinite(number):
        return plain(number)
    if "%" in bare:
        return f"{plain(100.0 * number)}%"
    written = plain(number)
    if "?/" in bare or "#/" in bare:
        written = _mixed(number)
    elif re.fullmatch("0{2,}", bare):
        written = written.zfill(len(bare))
    return f"{written}{words}"


def _words_behind(section: str) -> tuple[str, str]:
    """The section without the literal words at its end, and the words."""
    words = ""
    while match := _LITERAL.search(section):
        words = (match["quoted"] if match["quoted"] is not None else match["escaped"]) + words
        section = section[: match.start()].rstrip()
    return section, words.rstrip()


def _mixed(number: float) -> str:
    """A whole number with a fraction, where a tape has it; decimals otherwise."""
    parts = Fraction(number).limit_denominator(_SIXTY_FOURTHS)
    on_a_tape = _SIXTY_FOURTHS % parts.denominator == 0 and abs(float(parts) - number) < 1e-9
    if number < 0 or not on_a_tape or parts.denominator == 1:
        return plain(number)
    whole, rest = divmod(parts.numerator, parts.denominator)
    return " ".join(filter(None, (str(whole) if whole else "", f"{rest}/{parts.denominator}")))
