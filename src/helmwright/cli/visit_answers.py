"""What a person types in a visit: a command, an answer, a length, a whole round at once."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from helmwright.cli.written_answers import AnswerError
from helmwright.reports.visit_keys import keys, right_answer
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
    "help": "help",
    "?": "help",
}
_ALONE = frozenset({"undo", "pause", "why", "how", "help"})
"""Commands that nothing follows."""
_EXCEPT = re.compile(r"(?:except|but)(?: for)?\b[: ]*", re.IGNORECASE)
_COUNTS = {"one": "1", "a": "1", "two": "2", "three": "3", "four": "4"}


@dataclass(frozen=True, slots=True)
class Command:
    """A command, and what was typed behind it."""

    name: str
    rest: str = ""


def command(typed: str) -> Command | None:
    """The command that was typed; None where it is an answer."""
    plain = " ".join(typed.split())
    small = plain.lower()
    for word, name in sorted(_COMMANDS.items(), key=lambda each: -len(each[0])):
        if small == word:
            return Command(name)
        if small.startswith((f"{word} ", f"{word}:")) and name not in _ALONE:
            return Command(name, plain[len(word) :].strip(" :,"))
    return None


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
    first, _, rest = said.partition(" ")
    written = f"{_COUNTS.get(first, first)} {rest}".strip()
    if not any(each.isdigit() for each in written):
        raise AnswerError(_none(said), _right(check))
    try:
        return read_span(written, check.length)
    except SpanError as error:
        raise AnswerError(str(error), _right(check)) from error


def round_answered(exceptions: str, checks: Sequence[Check]) -> tuple[Answered, ...]:
    """Every check of the round: right, but for those that are named with their answer.

    Parameters
    ----------
    exceptions
        What was typed behind "all good": nothing, or "except front loose, brow 1 1/2".
    checks
        Those that are left in the round, in order.

    Raises
    ------
    AnswerError
        Where something is named that is not left in the round, or its answer is none.
    """
    named: dict[str, Answered] = {}
    for part in _parts(exceptions):
        key, given = _named(part, checks)
        if key in named:
            raise AnswerError(f"{key} is named twice", "Name each check once")
        named[key] = given
    return tuple(
        named.get(check.key) or Answered(check.key, right_answer(check).word) for check in checks
    )


def _parts(exceptions: str) -> list[str]:
    """The exceptions one by one."""
    opening = _EXCEPT.match(exceptions)
    behind = exceptions[opening.end() :] if opening else ""
    parts = [part for part in re.split(r"[,;]| and ", behind) if part.strip()]
    if exceptions and not parts:
        raise AnswerError(f'"{exceptions}" is not clear', "Type: all good except front loose")
    return parts


def _named(part: str, checks: Sequence[Check]) -> tuple[str, Answered]:
    """One exception: the check by the longest name that fits, then its answer."""
    said = " ".join(part.split()).lower()
    names = {name.lower(): check for check in checks for name in (check.key, check.title)}
    for name in sorted(names, key=len, reverse=True):
        if said.startswith(f"{name} "):
            check = names[name]
            return check.key, answered(check, said[len(name) + 1 :])
        if said == name:
            raise AnswerError(f"{name} how?", f"Type {name} and one of: {_words(names[name])}")
    left = ", ".join(check.key for check in checks)
    raise AnswerError(f'"{said}" is none of the checks left in this round', f"Left are: {left}")


def _words(check: Check) -> str:
    return ", ".join(answer.word for answer in check.answers)
