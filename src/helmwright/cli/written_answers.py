"""Answers as people type them at a question: spans, lists of thicknesses, yes and no."""

import re

from helmwright.units import UnitsError, inches, parse_length

_UNIT_AT_END = re.compile(r"(mm|cm|in|inch|inches|\")\.?$", re.IGNORECASE)
_BARE_AT_END = re.compile(r"[\d.\u00bc-\u00be\u215b-\u215e]$")
_SPAN_MARKS = re.compile(r"\bto\b|[,;\u2013\u2014]|-")
_STEPPED = re.compile(r"(.+?)\bto\b(.+?)\bby\b(.+)", re.IGNORECASE)
MOST_THICKNESSES = 24


class AnswerError(ValueError):
    """An answer that cannot be taken: what is wrong, and what would be right."""

    def __init__(self, wrong: str, right: str) -> None:
        stop = "" if wrong.endswith(("?", ".")) else "."
        super().__init__(f"{wrong}{stop} {right}.")


def with_unit(text: str) -> str:
    """The length as written, with the inches that a bare number means; other words stay."""
    stripped = " ".join(text.split())
    return f"{stripped} in" if _BARE_AT_END.search(stripped) else stripped


def length_mm(text: str, expected: tuple[float, float], right: str) -> float:
    """A length [mm]; bare numbers are inches.

    Raises
    ------
    AnswerError
        Where it is none, or out of what is expected.
    """
    try:
        return parse_length(text, "in", expected, what="such length")
    except UnitsError as error:
        raise AnswerError(str(error), right) from error


def span(text: str, expected: tuple[float, float], right: str) -> tuple[str, str]:
    """Two lengths, each as written with its unit: "20 1/2 to 21 1/2", "52-54 cm".

    Raises
    ------
    AnswerError
        Where there are not two, or the first is not the smaller.
    """
    found = [both for both in _cuts(text) if _are_lengths(both, expected)]
    if len(found) == 1:
        low, high = found[0]
        if parse_length(low) >= parse_length(high):
            raise AnswerError(
                f'"{text.strip()}" runs down', f"Write the smaller end first: {right}"
            )
        return low, high
    for low, high in _cuts(text)[:1]:
        length_mm(low, expected, f"Write {right}")
        length_mm(high, expected, f"Write {right}")
    raise AnswerError(f'"{text.strip()}" is not two lengths', f"Write {right}")


def _cuts(text: str) -> list[tuple[str, str]]:
    """Every way to cut a text in two; the unit behind the second goes for the first as well."""
    cuts = []
    for mark in _SPAN_MARKS.finditer(text):
        low, high = text[: mark.start()].strip(), text[mark.end() :].strip()
        unit = _UNIT_AT_END.search(high)
        if low and high:
            cuts.append((with_unit(_lent(low, unit)), with_unit(high)))
    return cuts


def _are_lengths(both: tuple[str, str], expected: tuple[float, float]) -> bool:
    try:
        return all(parse_length(each, expected=expected) > 0 for each in both)
    except UnitsError:
        return False


def thicknesses(text: str, expected: tuple[float, float], right: str) -> tuple[str, ...]:
    """Thicknesses as written, thin to thick: "1/2, 5/8, 3/4" or "1/2 to 1 by 1/8".

    Raises
    ------
    AnswerError
        Where one is no length, or one stands there twice.
    """
    stepped = _STEPPED.fullmatch(text.strip())
    words = _steps(stepped, expected, right) if stepped else re.split(r"[,;]", text)
    words = [word.strip() for word in words if word.strip()]
    if not words:
        raise AnswerError("there is no thickness", right)
    unit = _UNIT_AT_END.search(words[-1])
    labels = [with_unit(_lent(word, unit)) for word in words]
    sizes = {label: length_mm(label, expected, right) for label in labels}
    ordered = sorted(sizes, key=lambda label: sizes[label])
    if len({round(size, 2) for size in sizes.values()}) < len(words):
        raise AnswerError("one thickness stands there twice", right)
    return tuple(ordered)


def _lent(word: str, unit: re.Match[str] | None) -> str:
    """A length with the unit of the last one in its list, where it has none itself."""
    return word if unit is None or _UNIT_AT_END.search(word) else f"{word} {unit[1]}"


def _steps(found: re.Match[str], expected: tuple[float, float], right: str) -> list[str]:
    """Every thickness from one to another."""
    unit = _UNIT_AT_END.search(found[3].strip()) or _UNIT_AT_END.search(found[2].strip())
    words = [_lent(part.strip(), unit) for part in found.groups()]
    low, high = (length_mm(word, expected, right) for word in words[:2])
    step = length_mm(words[2], (0.5, 40.0), right)
    count = round((high - low) / step)
    if count < 1 or count >= MOST_THICKNESSES or abs(low + count * step - high) > 0.2:
        raise AnswerError(f'"{found[0]}" does not come out even', right)
    metric = unit is not None and unit[1].lower() in ("mm", "cm")
    sizes = [low + place * step for place in range(count + 1)]
    return [f"{size:g} mm" if metric else inches(size, denominator=32) for size in sizes]


def one_of(text: str, labels: tuple[str, ...]) -> str:
    """The label that a text means.

    Raises
    ------
    AnswerError
        Where it is none of them.
    """
    for label in labels:
        if text.strip() in (label, _UNIT_AT_END.sub("", label).strip()):
            return label
    try:
        meant = parse_length(text, "in")
        return next(label for label in labels if abs(parse_length(label) - meant) < 0.1)
    except (UnitsError, StopIteration):
        right = f"Write one of: {', '.join(labels)}; or press Enter where nobody knows"
        raise AnswerError(f'"{text.strip()}" is not among the thicknesses', right) from None


def ages(text: str) -> tuple[int, int] | None:
    """Youngest and oldest age; None for adults, which is an empty answer.

    Raises
    ------
    AnswerError
        Where it is no span of ages.
    """
    if not text.strip():
        return None
    right = "Write the youngest and the oldest age, such as 8 to 14; Enter for adults"
    found = re.fullmatch(r"(\d{1,2})\s*(?:to|-|,|\u2013)?\s*(\d{1,2})", text.strip())
    if found is None:
        raise AnswerError(f'"{text.strip()}" is no span of ages', right)
    low, high = int(found[1]), int(found[2])
    if not 5 <= low < high <= 25:
        raise AnswerError(f"{low} to {high} years is no span within 5 to 25", right)
    return low, high


def yes(text: str, *, unless: bool) -> bool:
    """Yes or no; an empty answer is `unless`.

    Raises
    ------
    AnswerError
        Where it is neither.
    """
    word = text.strip().lower()
    if not word:
        return unless
    if word in ("y", "yes", "n", "no"):
        return word.startswith("y")
    raise AnswerError(f'"{text.strip()}" is neither yes nor no', "Write y or n")
