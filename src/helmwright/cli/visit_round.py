"""A whole round answered at once: all right, but for those that are named."""

import re
from collections.abc import Iterable, Mapping, Sequence

from helmwright.cli.visit_answers import ALL_GOOD, answered
from helmwright.cli.written_answers import AnswerError
from helmwright.fit.finding import Grade
from helmwright.reports.visit_keys import right_answer
from helmwright.visit.check import Check
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import Answered
from helmwright.visit.looks import grade_of
from helmwright.visit.said_words import given_words, named_words
from helmwright.visit.step import AskCheck

_EXCEPT = re.compile(r"(?:except|but)(?: for| that)?\b[: ]*", re.IGNORECASE)
_IS = re.compile(r"[:=]\s*|(?:is|are|was|were|feels|sits)\s+", re.IGNORECASE)
_BETWEEN = re.compile(r"\s*[,;]\s*(?:and\s+)?|\s+and\s+", re.IGNORECASE)


def round_answered(
    exceptions: str, checks: Sequence[Check], done: Mapping[str, str] | None = None
) -> tuple[Answered, ...]:
    """Every check of the round: right, but for those that are named with their answer.

    Parameters
    ----------
    exceptions
        What was typed behind "all good": nothing, or "except front is loose, brow 1 1/2".
    checks
        Those that are left in the round, in order.
    done
        Those of the round that are answered already, by title, with what was answered.

    Raises
    ------
    AnswerError
        Where something is named that is not left in the round, or its answer is none.
    """
    named: dict[str, Answered] = {}
    for given in _exceptions(exceptions, checks, done or {}):
        if given.check in named:
            raise AnswerError(f"{given.check} is named twice", "Name each check once")
        named[given.check] = given
    return tuple(
        named.get(check.key) or Answered(check.key, right_answer(check).word) for check in checks
    )


def _exceptions(typed: str, checks: Sequence[Check], done: Mapping[str, str]) -> list[Answered]:
    """The exceptions one by one."""
    opening = _EXCEPT.match(typed)
    behind = typed[opening.end() :].strip(" ,;") if opening else ""
    if typed and not behind:
        raise AnswerError(f'"{typed}" is not clear', f"Type: {ALL_GOOD} except front loose")
    return _named_in(behind, checks, done) if behind else []


def _named_in(part: str, checks: Sequence[Check], done: Mapping[str, str]) -> list[Answered]:
    """What is named, one or several; a title may hold a comma or an "and" of its own."""
    try:
        return [_named(part, checks, done)]
    except AnswerError as error:
        fault = error
    for found in _BETWEEN.finditer(part):
        try:
            first = _named(part[: found.start()], checks, done)
        except AnswerError as error:
            fault = error
        else:
            return [first, *_named_in(part[found.end() :], checks, done)]
    raise fault


def _named(part: str, checks: Sequence[Check], done: Mapping[str, str]) -> Answered:
    """One exception: the check by the longest name that fits, then its answer."""
    said = " ".join(part.split()).lower().removeprefix("the ")
    names = {name: check for check in checks for name in _names(check)}
    for name in sorted(names, key=len, reverse=True):
        if said == name:
            raise AnswerError(f"{name} how?", f"Type {name} and one of: {_words(names[name])}")
        if said.startswith((f"{name} ", f"{name}:", f"{name}=")):
            check = names[name]
            return answered(check, _IS.sub("", said[len(name) :].strip(), count=1))
    _refuse_done(said, done)
    left = ", ".join(check.key for check in checks)
    raise AnswerError(f'"{said}" is none of the checks left in this round', f"Left are: {left}")


def _names(check: Check) -> set[str]:
    """What a check is called: its key, its title, and "left jaw" for "jaw left"."""
    found = {check.key, check.title.lower()}
    for name, mark in ((check.title.lower(), ", "), (check.key, " ")):
        parts = name.split(mark)
        if len(parts) == 2:
            found |= {f"{parts[0]} {parts[1]}", f"{parts[1]} {parts[0]}"}
    return found


def _refuse_done(said: str, done: Mapping[str, str]) -> None:
    """Refuses to answer a second time what was answered in this round."""
    for name, word in sorted(done.items(), key=lambda each: -len(each[0])):
        if said == name.lower() or said.startswith(f"{name.lower()} "):
            raise AnswerError(
                f"{name} is answered already: {word}",
                "Type undo until it is asked again, to change it",
            )


def _words(check: Check) -> str:
    return ", ".join(answer.word for answer in check.answers)


def left_in_round(protocol: Protocol, step: AskCheck) -> tuple[Check, ...]:
    """The check, those that surely follow, and at a first look those that may."""
    sure = (step.check, *step.rest_of_round)
    if step.look > 1:
        return sure
    keys = [check.key for check in protocol.checks]
    behind = protocol.checks[keys.index(sure[-1].key) + 1 :]
    return (*sure, *(check for check in behind if check.stage is step.check.stage))


def done_in_round(
    protocol: Protocol, step: AskCheck, answers: Iterable[Answered]
) -> dict[str, str]:
    """What was answered of the step's round, by key and by title."""
    stage = {check.key: check for check in protocol.stage(step.check.stage)}
    last = {given.check: given for given in answers if given.check in stage}
    last.pop(step.check.key, None)
    words = {key: given_words(given) for key, given in last.items()}
    return words | {stage[key].title: said for key, said in words.items()}


def bad_words(protocol: Protocol, answers: Iterable[Answered]) -> list[str]:
    """The answers that are not right, each in words."""
    return [
        named_words(protocol, each)
        for each in answers
        if grade_of(protocol.check(each.check), each) is not Grade.RIGHT
    ]


def kept_words(protocol: Protocol, answers: Sequence[Answered]) -> str:
    """Answers in few words: the bad ones, and how many are right."""
    bad = bad_words(protocol, answers)
    right = len(answers) - len(bad)
    if not bad:
        return f"{right} right"
    return "; ".join([*bad, f"the other {right} right" if right else "nothing else"])
