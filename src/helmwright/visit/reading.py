"""Reading a protocol file: text in, a checked protocol or every fault with its line out."""

import re
import tomllib
from typing import Any

from helmwright.catalogue.instruction import FitTopic
from helmwright.catalogue.reading.fault import SheetFault, syntax_fault
from helmwright.catalogue.reading.positions import line_index
from helmwright.catalogue.reading.table import Report, Table, shown
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.finding import OF_A_ZONE, Grade, Sign
from helmwright.visit.check import Answer, Check, Length, Part, Stage, SubScore
from helmwright.visit.check_list import Protocol, Symptom

FORMAT = 1
"""The format that this version reads."""

GRADES = {"under": Grade.UNDER, "right": Grade.RIGHT, "over": Grade.OVER}
"""The words for a grade in a protocol file."""

ON_THE_SPOT = [Part.AIR, Part.STRAP, Part.GUARD]
"""What is changed or set without another build."""

LONGEST_MM = 200.0
"""No check reads a longer length."""

MINUTES = "{minutes}"

_KEY = re.compile(r"[a-z][a-z0-9 ]*")
_BRACED = re.compile(r"\{[^}]*\}?")
_KNOWN = ("{points}", MINUTES)
_SIGNS = [sign.value for sign in Sign]


class ProtocolError(ValueError):
    """A protocol that cannot be used, with all its faults in the order of their lines."""

    def __init__(self, name: str, faults: tuple[SheetFault, ...]) -> None:
        self.name = name
        self.faults = faults
        count = "1 thing" if len(faults) == 1 else f"{len(faults)} things"
        super().__init__("\n".join([f"{name}: {count} to put right", *map(str, faults)]))


def parse_protocol(text: str, *, name: str) -> Protocol:
    """Read a protocol file and check it.

    Parameters
    ----------
    text
        The file's text, TOML.
    name
        What to call it in messages, usually the file's name.

    Raises
    ------
    ProtocolError
        With every fault, in the order of its lines.
    """
    text = text.removeprefix("\ufeff")
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise ProtocolError(name, (syntax_fault(error, text),)) from None
    except ValueError:  # Python reads no whole number of more than some thousand digits.
        endless = SheetFault(1, "", "a number has thousands of digits", "Write a shorter one")
        raise ProtocolError(name, (endless,)) from None
    report = Report(line_index(text))
    found = _protocol(Table(data, (), "", report))
    if found is None or report.faults:
        faults = dict.fromkeys(report.faults)
        raise ProtocolError(name, tuple(sorted(faults, key=lambda fault: fault.line)))
    return found


def _protocol(root: Table) -> Protocol | None:
    """The protocol, with faults noted; None where it cannot even be put together."""
    number = root.take("format", f"{FORMAT}, on a line of its own above all sections")
    if number is not None and number != FORMAT:
        wrong = f"format {shown(number)} is not known to this version"
        root.fault("format", wrong, f"Write format = {FORMAT}, or use a newer version")
    name = root.text("name", "what to call the protocol")
    minutes = root.number("minutes_worn", 1, 60, "minutes")
    stop = root.text("symptom_stop", "what to do when a symptom is reported, in plain words")
    air = root.text("air_put_right", "how air is added or let out", default="")
    symptoms = [_symptom(each) for each in root.tables("symptom")]
    tables = root.tables("check")
    read = [_check(each, minutes) for each in tables]
    checks = tuple(each for each in read if each is not None)
    if len(checks) == len(tables):
        _note_order(tables, checks)
    root.close()
    if root.report.faults:
        return None
    return Protocol(name, checks, minutes, tuple(symptoms), stop, air)


def _symptom(table: Table) -> Symptom:
    word = table.text("word", 'a word for it, such as "dizziness"')
    says = table.text("says", "what it is, in plain words")
    heard_as = table.texts("heard_as", "how words for it begin", optional=True)
    table.close()
    return Symptom(word, says, tuple(map(str.lower, heard_as)))


def _note_order(tables: list[Table], checks: tuple[Check, ...]) -> None:
    """Note keys that are used twice, and checks that stand after a later stage."""
    stages = list(Stage)
    seen: set[str] = set()
    latest = stages[0]
    for table, check in zip(tables, checks, strict=True):
        if check.key in seen:
            wrong = f'another check is called "{check.key}" too'
            table.fault("key", wrong, "Give each check its own key")
        seen.add(check.key)
        if stages.index(check.stage) < stages.index(latest):
            wrong = f"a check of stage {check.stage} stands after one of stage {latest}"
            right = "Move it up; the stages come in this order: " + ", ".join(stages)
            table.fault("stage", wrong, right)
        latest = max(latest, check.stage, key=stages.index)


def _check(table: Table, minutes: float) -> Check | None:
    """One check; None where it cannot be put together."""
    key = _key(table)
    sign, zone = _sign_and_zone(table)
    stage = table.text("stage", "when it comes", choices=list(Stage))
    facts: dict[str, Any] = {
        "title": table.text("title", "what a person reads above it"),
        "how": tuple(_told(table, "how", each, minutes) for each in _how(table)),
        "accept": _told(table, "accept", table.text("accept", "what is right, in words"), minutes),
        "source": table.text(
            "source", 'where the criterion comes from, or "common practice, no source"'
        ),
        "differs": table.text("differs", "where sources differ", default=""),
        "put_right": table.text("put_right", "what puts it right on the spot", default=""),
    }
    sub_score = table.text("sub_score", "the score that it feeds", choices=list(SubScore))
    topic = table.text("topic", "an instruction's topic", default="", choices=list(FitTopic))
    needs = table.text("needs", "a part", default="", choices=[Part.AIR])
    repeat = table.texts("repeat_after", "kinds of parts", choices=list(Part), optional=True)
    changes = table.texts("changes", "kinds of parts", choices=ON_THE_SPOT, optional=True)
    if changes and not facts["put_right"]:
        wrong = "parts are changed, and nothing says what puts it right"
        table.fault("changes", wrong, "Add put_right, or leave changes out")
    length, answers = _length(table), _answers(table, minutes)
    if table.sound:
        _note_answers(table, Sign(sign), zone, answers, with_length=length is not None)
    if not table.close():
        return None
    return Check(
        key=key,
        stage=Stage(stage),
        answers=answers,
        sub_score=SubScore(sub_score),
        sign=Sign(sign),
        zone=zone,
        length=length,
        repeat_after=frozenset(map(Part, repeat)),
        topic=FitTopic(topic) if topic else None,
        needs=Part(needs) if needs else None,
        changes=tuple(map(Part, changes)),
        **facts,
    )


def _key(table: Table) -> str:
    key = table.text("key", 'a short name of small letters, such as "jaw left"')
    if key and not _KEY.fullmatch(key):
        table.fault("key", f'"{key}" is no key', "Use small letters, digits and blanks")
    table.title = f'check "{key}"' if key else table.title
    return key


def _how(table: Table) -> tuple[str, ...]:
    return table.texts("how", "a list of sentences, each in quotation marks")


def _told(table: Table, key: str, text: str, minutes: float) -> str:
    """The text with the minutes put in; a word in braces that stands for nothing is noted."""
    for braced in _BRACED.findall(text):
        if braced not in _KNOWN:
            table.fault(key, f"{braced} stands for nothing", "Use only " + " and ".join(_KNOWN))
    return text.replace(MINUTES, f"{minutes:g}")


def _sign_and_zone(table: Table) -> tuple[str, Zone | None]:
    """What the check tells of head and pads, and where."""
    sign = table.text("sign", "what it looks at", default=Sign.PLAIN.value, choices=_SIGNS)
    zone = table.text("zone", "where", default="", choices=list(ZONES))
    if table.sound and bool(zone) != (sign == Sign.ZONE):
        wrong = f'a check with the sign "{sign}" has {"a" if zone else "no"} zone'
        right = f'Write a zone where the sign is "{Sign.ZONE.value}", and only there'
        table.fault("zone", wrong, right)
    return sign, Zone(zone) if zone in tuple(ZONES) else None


def _length(table: Table) -> Length | None:
    """The length that a check reads, where it reads one."""
    if not table.may_have("length"):
        return None
    section = table.table("length")
    if section is None:
        return None
    section.title = f"{table.title}, length"
    right = 'two lengths, such as ["3/4 in", "1 in"]'
    accept = [mm for _, mm in section.lengths("accept", right, 0.0, LONGEST_MM)]
    low = section.length("low", 0.0, LONGEST_MM)
    high = section.length("high", 0.0, LONGEST_MM)
    fingers = section.flag("fingers", "whether finger widths are a usual way", default=True)
    if section.sound and not (len(accept) == 2 and low <= accept[0] < accept[1] <= high):
        wrong = "the accepted lengths are no two that grow, within low and high"
        section.fault("accept", wrong, f"Write {right}, and low and high around them")
    if not section.close():
        table.sound = False
        return None
    return Length((accept[0], accept[1]), low, high, fingers)


def _answers(table: Table, minutes: float) -> tuple[Answer, ...]:
    """The ways to answer, with faults noted."""
    sections = table.tables("answers")
    found = [_answer(each, place, table, minutes) for place, each in enumerate(sections, start=1)]
    return tuple(each for each in found if each is not None)


def _answer(section: Table, place: int, check: Table, minutes: float) -> Answer | None:
    section.title = f"{check.title}, answer {place}"
    word = section.text("word", "what is typed, in small letters")
    grade = section.text("grade", "where it lies in the order", choices=list(GRADES))
    says = _told(section, "says", section.text("says", "what it means"), minutes)
    points_to = section.text("points_to", "what a bad answer points to", default="")
    zone = section.text("zone", "where", default="", choices=list(ZONES))
    if word and not _KEY.fullmatch(word):
        section.fault("word", f'"{word}" is no word to type', "Use small letters and blanks")
    if section.sound and bool(points_to) == (grade == "right"):
        wrong = "a right answer points to nothing" if points_to else "a bad answer points nowhere"
        right = "Leave points_to out" if points_to else "Add points_to: what to look at or change"
        section.fault("points_to", wrong, right)
    if not section.close():
        check.sound = False
        return None
    return Answer(word, GRADES[grade], says, points_to, Zone(zone) if zone else None)


def _note_answers(
    table: Table, sign: Sign, zone: Zone | None, answers: tuple[Answer, ...], *, with_length: bool
) -> None:
    """Note answers that do not make a check that can be answered."""
    words = [each.word for each in answers]
    twice = next((word for word in words if words.count(word) > 1), None)
    grades = [each.grade for each in answers]
    if twice is not None:
        table.fault("answers", f'two answers are called "{twice}"', "Give each its own word")
    elif Grade.RIGHT not in grades:
        table.fault("answers", "no answer is right", 'Give one of them grade = "right"')
    elif set(grades) == {Grade.RIGHT}:
        table.fault("answers", "every answer is right", "Add what is found where it is not")
    elif with_length and sorted(grades) != sorted(Grade):
        wrong = "a check that reads a length needs three answers"
        table.fault("answers", wrong, "Write one each: under, right and over")
    elif any(each.zone for each in answers) != (sign in OF_A_ZONE and zone is None):
        wrong = f'answers name places where the sign is "{Sign.HOT_SPOT.value}", and only there'
        table.fault("answers", wrong, "Give bad answers a zone there, and leave it out elsewhere")
