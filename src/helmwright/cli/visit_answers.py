"""What a person types in a visit: a command, an answer, a length, a whole round at once."""

import re
from dataclasses import dataclass

from helmwright.cli.written_answers import AnswerError
from helmwright.reports.visit_keys import keys
from helmwright.visit.check import Answer, Check
from helmwright.visit.event import Answered
from helmwright.visit.span import SpanError, read_span

ALL_GOOD = "all good"
_COMMANDS = {
    "undo": "undo",
    "back": "undo",
    "pause": "pause",
    "quit": "pause",
    "exit": "pause",
    "why": "why",
    "how": "how",
    "symptom": "symptom",
    "stop": "stop",
    "other": "other",
    ALL_GOOD: ALL_GOOD,
    "all right": ALL_GOOD,
    "list": "list",
    "reading": "reading",
    "help": "help",
    "?": "help",
}
_ALONE = frozenset({"undo", "pause", "why", "how", "list", "help"})
"""Commands that nothing follows."""
_REST_GOOD = re.compile(
    r"(?P<named>.+?)(?:[,;]\s*|\s+)(?:and\s+|but\s+)?(?:(?:the\s+)?(?:rest|others?)\s+)?(?:is\s+|are\s+)?"
    r"all (?:good|right)\.?",
    re.IGNORECASE,
)
"""A round answered the other way about: "front loose, the rest all good"."""
_DECIMAL_COMMA = re.compile(r"\d+,\d+")
_COUNTS = {"one": "1", "a": "1", "two": "2", "three": "3", "four": "4"}


@dataclass(frozen=True, slots=True)
class Command:
    """A command, and what was typed behind it."""

    name: str
    rest: str = ""


def command(typed: str) -> Command | None:
    """The command that was typed; None where it is an answer."""
    plain = " ".join(typed.split())
    small = plain.rstrip(".!").lower()
    for word, name in sorted(_COMMANDS.items(), key=lambda each: -len(each[0])):
        if small == word:
            return Command(name)
        if small.startswith((f"{word} ", f"{word}:")) and name not in _ALONE:
            return Command(name, plain[len(word) :].strip(" :,"))
    turned = _REST_GOOD.fullmatch(plain)
    return Command(ALL_GOOD, f"except {turned['named']}") if turned else None


def answered(check: Check, typed: str) -> Answered:
    """The answer that was typed.

    Parameters
    ----------
    check
        What was asked.
    typed
        A letter, a place in the list, a word, the beginning of one, or a length where one is read.

    Raises
    ------
    AnswerError
        Where it is none of these.
    """
    said = " ".join(typed.split()).lower()
    answer = _by_word(check, said)
    if answer is not None:
        return Answered(check.key, answer.word)
    if check.length is None:
        raise AnswerError(_none(said), _right(check))
    value = _length(check, said)
    grade = check.length.grade(value)
    word = next(each.word for each in check.answers if each.grade is grade)
    return Answered(check.key, word, value)


def _by_word(check: Check, said: str) -> Answer | None:
    """The answer by word, letter, place or beginning."""
    exact = [each for each in check.answers if each.word.lower() == said]
    if exact:
        return exact[0]
    by_letter = keys(check).get(said)
    if by_letter is not None:
        return by_letter
    if check.length is None and said.isdecimal() and 1 <= int(said) <= len(check.answers):
        return check.answers[int(said) - 1]
    begun = [each for each in check.answers if len(said) > 1 and each.word.lower().startswith(said)]
    return begun[0] if len(begun) == 1 else None


def _none(said: str) -> str:
    return f'"{said}" is no answer here' if said else "Nothing was typed"


def _right(check: Check) -> str:
    """What can be typed."""
    letters = [f"{letter} ({answer.word})" for letter, answer in keys(check).items()]
    listed = " or ".join([", ".join(letters[:-1]), letters[-1]]) if len(letters) > 1 else letters[0]
    read = "; or the inches, such as 1 1/8" if check.length is not None else ""
    fingers = ", or 1 finger" if check.length is not None and check.length.fingers else ""
    return f"Type {listed}{read}{fingers}"


def _length(check: Check, said: str) -> float:
    """The length that was typed [mm]."""
    assert check.length is not None  # noqa: S101 - asked only where a length is read
    if _DECIMAL_COMMA.fullmatch(said):
        point = said.replace(",", ".")
        raise AnswerError(f'"{said}" is not clear', f"Write {point}, or a fraction")
    if said in _COUNTS:
        count = _COUNTS[said]
        raise AnswerError(f"{said.capitalize()} of what", f"Type {count} in, or {count} finger")
    first, _, rest = said.partition(" ")
    written = f"{_COUNTS.get(first, first)} {rest}".strip()
    if not any(each.isdigit() for each in written):
        raise AnswerError(_none(said), _right(check))
    try:
        return read_span(written, check.length)
    except SpanError as error:
        raise AnswerError(str(error), _right(check)) from error
