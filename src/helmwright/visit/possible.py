"""Refusing events that name what the protocol or the model sheet does not have."""

from collections.abc import Sequence

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.outlook import Build
from helmwright.units import inches
from helmwright.visit.check import Check, Stage
from helmwright.visit.event import Answered
from helmwright.visit.state import OutOfTurnError, Visit


class UnknownCheckError(ValueError):
    """An answer to a check that the protocol does not have, or that reads no length."""


class UnlistedBuildError(ValueError):
    """A build with parts that the model sheet does not list or allow together."""


def refuse_impossible(visit: Visit, sheet: ModelSheet, checks: Sequence[Check]) -> None:
    """Refuse answers and builds that cannot be.

    Raises
    ------
    UnknownCheckError, UnknownAnswerError
        For an answer that the protocol does not have.
    UnlistedBuildError
        For a build or a part that the sheet does not have.
    OutOfTurnError
        For the answer to a check of the helmet on the head, before it is on.
    """
    known = {check.key: check for check in checks}
    for tried in visit.try_ons:
        _refuse_unlisted(tried.build, sheet)
        if tried.lay is not None:
            _refuse_unlisted(tried.lay, sheet)
        for given in tried.answers:
            _refuse_answer(given, known)
    current = visit.started.current
    for lies in (*visit.started.helmets, *([current] if current else [])):
        _refuse_unlisted(lies, sheet)
    for place, size in visit.missing:
        _refuse_no_part(place, size, sheet)
    for given in visit.ahead:
        _refuse_answer(given, known)
        if known[given.check].stage is not Stage.BEFORE:
            raise OutOfTurnError(
                f"{known[given.check].title} was answered before the proposed build is on the "
                "head; it is put on first"
            )


def _refuse_answer(given: Answered, known: dict[str, Check]) -> None:
    check = known.get(given.check)
    if check is None:
        raise UnknownCheckError(
            f"the protocol has no check {given.check!r}; it has {', '.join(known)}"
        )
    check.answer(given.word)
    if given.value_mm is None:
        return
    length = check.length
    if length is None:
        raise UnknownCheckError(f"{check.title} reads no length; answer with a word alone")
    if not length.low_mm <= given.value_mm <= length.high_mm:
        raise UnknownCheckError(
            f"{check.title}: {inches(given.value_mm)} in can be nobody's; it lies from "
            f"{inches(length.low_mm)} to {inches(length.high_mm)} in"
        )


def _refuse_no_part(place: str, size: str, sheet: ModelSheet) -> None:
    listed = {str(pad.zone): pad.labels for pad in sheet.pads}
    if size not in listed.get(place, ()):
        raise UnlistedBuildError(
            f"{place} {size} is no part of {sheet.model}; give one of its zones"
            f" {', '.join(listed)} and a pad that it lists there"
        )


def _refuse_unlisted(build: Build, sheet: ModelSheet) -> None:
    numbers = [shell.number for shell in sheet.shells]
    if build.shell not in numbers or not is_allowed(sheet, build.pads):
        raise UnlistedBuildError(
            f"shell {build.shell} with pads {build.pads} is no build of {sheet.model}; give one of "
            f"its shells {', '.join(map(str, numbers))} and pads that it lists for every zone"
        )
