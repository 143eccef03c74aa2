"""Answers as a program sends them, and which of them are taken."""

from collections.abc import Sequence

from helmwright.fit.finding import Grade
from helmwright.visit.check import Check, Length, UnknownAnswerError
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import Answered
from helmwright.visit.lines_in import FindingForm
from helmwright.visit.span import SpanError, read_span
from helmwright.visit.wire_fault import WireError


def read_findings(forms: Sequence[FindingForm], protocol: Protocol) -> dict[str, Answered]:
    """The answers by their checks.

    Raises
    ------
    WireError
        For a check that is not in the protocol or is named twice, or what is no answer to it.
    """
    found: dict[str, Answered] = {}
    for place, form in enumerate(forms, start=1):
        where = f"findings {place}"
        if form.check in found:
            right = "a second look is taken when it is asked for"
            raise WireError(f"{form.check} is answered twice", f"{where}, check", right)
        found[form.check] = _answered(form, _check(form.check, protocol, where), where)
    return found


def _check(key: str, protocol: Protocol, where: str) -> Check:
    for check in protocol.checks:
        if check.key == key:
            return check
    known = ", ".join(check.key for check in protocol.checks)
    raise WireError(f'there is no check "{key}"', f"{where}, check", f"there are {known}")


def _answered(form: FindingForm, check: Check, where: str) -> Answered:
    value_mm = _value(form, check, where)
    if form.word is None and value_mm is None:
        raise WireError(f"{check.key} is not answered", where, f"say {_words(check)}")
    if form.word is None:
        assert check.length is not None  # noqa: S101 - a value was read, so that there is one
        return Answered(check.key, _word(check, check.length.grade(value_mm or 0.0)), value_mm)
    try:
        answer = check.answer(form.word)
    except UnknownAnswerError as error:
        wrong = f'"{form.word}" is no answer to {check.key}'
        raise WireError(wrong, f"{where}, word", f"say {_words(check)}") from error
    if value_mm is not None and check.length is not None:
        grade = check.length.grade(value_mm)
        if grade is not answer.grade:
            wrong = f"the length says {_word(check, grade)}, the word {form.word}"
            raise WireError(wrong, where, "send the length alone, or look again")
    return Answered(check.key, form.word, value_mm)


def _value(form: FindingForm, check: Check, where: str) -> float | None:
    if form.value is None and form.value_mm is None:
        return None
    if form.value is not None and form.value_mm is not None:
        raise WireError("value and value_mm say the same", where, "send one of them")
    if check.length is None:
        raise WireError(f"{check.key} reads no length", where, f"say {_words(check)}")
    if form.value is not None:
        return _read(form.value, check.length, where)
    value_mm = form.value_mm or 0.0
    low, high = check.length.low_mm, check.length.high_mm
    if not low <= value_mm <= high:
        wrong = f"{check.key}: {value_mm:g} mm can be nobody's"
        raise WireError(wrong, where, f"it lies from {low:g} to {high:g} mm")
    return value_mm


def _read(text: str, length: Length, where: str) -> float:
    try:
        return read_span(text, length)
    except SpanError as error:
        wrong, _, right = str(error).partition(". ")
        raise WireError(wrong, f"{where}, value", right or "such as 1 1/8") from error


def _word(check: Check, grade: Grade) -> str:
    """The word of a grade; of several the first."""
    return next((each.word for each in check.answers if each.grade is grade), str(grade))


def _words(check: Check) -> str:
    words = ", ".join(answer.word for answer in check.answers)
    return f"{words}, or the length in value_mm" if check.length is not None else words
