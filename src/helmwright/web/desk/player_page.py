"""What a player's page shows, from the record, in words."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from helmwright.anatomy import Over, measure_of
from helmwright.records.models import Consent, Issue, Reading, Visit
from helmwright.records.readers.head_facts import HeadFacts, MeasureFact
from helmwright.records.readers.player import PlayerRecord
from helmwright.records.readers.visit_told import state_told
from helmwright.records.words import us_date
from helmwright.reports.lengths import measure_words
from helmwright.web.desk.words import over_words, stature_words, weight_words

OUTCOMES = {
    "open": ("visit", "going on"),
    "paused": ("kept", "paused"),
    "accepted": ("fitted", "accepted"),
    "no build": ("no", "no build with what was there"),
    "stopped": ("check", "stopped"),
    "symptom": ("check", "ended for the athletic trainer"),
}
"""Mark and words of how a visit ended, or stands."""

PURPOSES = {
    "game": "game helmet",
    "practice": "practice helmet",
    "game and practice": "game and practice helmet",
    "twin": "twin",
}

CHANGED = {
    "player added": "Put on the roster",
    "player changed": "Fields changed",
    "retention held": "Retention hold changed",
}


@dataclass(frozen=True, slots=True)
class ReadingLine:
    """One reading, as a line."""

    id: UUID
    value_mm: float
    at: datetime
    by: str
    over: str
    is_withdrawn: bool
    is_set_aside: bool


@dataclass(frozen=True, slots=True)
class MeasureLine:
    """One measure of the head, as a line."""

    fact: MeasureFact
    name: str
    how: str
    readings: tuple[ReadingLine, ...]


@dataclass(frozen=True, slots=True)
class VisitLine:
    """One visit, as a line."""

    visit: Visit
    mark: str
    words: str
    where: str


@dataclass(frozen=True, slots=True)
class Past:
    """Something that happened."""

    at: datetime
    words: str
    by: str


def measure_lines(head: HeadFacts) -> tuple[list[MeasureLine], list[MeasureLine]]:
    """Measures that were read, and those that are filled in from people with such heads."""
    lines = [_measure_line(fact) for fact in head.measures]
    read = [line for line in lines if line.readings]
    return read, [line for line in lines if not line.readings]


def _measure_line(fact: MeasureFact) -> MeasureLine:
    name = measure_words(fact.key)
    return MeasureLine(
        fact,
        name[:1].upper() + name[1:],
        measure_of(fact.key).how,
        tuple(_reading_line(row, fact.set_aside_mm) for row in fact.readings),
    )


def _reading_line(row: Reading, set_aside_mm: float | None) -> ReadingLine:
    return ReadingLine(
        row.pk,
        row.value_mm,
        row.at,
        row.by.name if row.by else "",
        reading_over(row),
        row.is_withdrawn,
        not row.is_withdrawn and set_aside_mm is not None and row.value_mm == set_aside_mm,
    )


def reading_over(row: Reading) -> str:
    """What the reading was taken over, in words; empty where nobody said."""
    kinds = [Over(kind) for kind in (row.beneath, row.over) if kind]
    return over_words(kinds)


def visit_lines(record: PlayerRecord, role: str) -> list[VisitLine]:
    """Visits, newest first."""
    return [
        VisitLine(
            visit,
            *OUTCOMES[state_told(visit.state, role)],
            visit.station.name if visit.station else visit.store.name,
        )
        for visit in record.visits
    ]


def history(record: PlayerRecord, role: str) -> list[Past]:
    """Everything that happened with the player, newest first."""
    past = [
        *(
            Past(entry.server_time, CHANGED[entry.kind], who.name if who else "")
            for entry, who in record.changes
        ),
        *_readings_past(record.head),
        *(_visit_past(visit, role) for visit in record.visits),
        *(each for issue in record.issues for each in _issue_past(issue)),
        *(
            Past(
                one.at,
                f"Warning {one.text_version} read and signed by the {one.signed_by}"
                + (f", helmet {one.helmet.code}" if one.helmet else ""),
                one.by.name if one.by else "",
            )
            for one in record.acknowledgments
        ),
        *(
            Past(one.given_at, f"Consent to {one.about} given, {consent_text(one)}", "")
            for one in record.consents
        ),
    ]
    return sorted(past, key=lambda one: one.at, reverse=True)


def consent_text(one: Consent) -> str:
    """To which words somebody agreed."""
    return "on paper" if one.on_paper else f"text {one.text_version}"


def _readings_past(head: HeadFacts) -> list[Past]:
    """Readings of one moment by one person stand in one line."""
    groups: dict[tuple[Any, str], list[str]] = {}
    first: dict[tuple[Any, str], datetime] = {}
    for fact in head.measures:
        for row in fact.readings:
            key = (row.at.replace(second=0, microsecond=0), row.by.name if row.by else "")
            groups.setdefault(key, []).append(measure_words(row.measure))
            first.setdefault(key, row.at)
    return [
        Past(first[key], f"Measured: {_counted(names)}", key[1]) for key, names in groups.items()
    ]


def _counted(names: Sequence[str]) -> str:
    """Each measure once, with how often it was read where more than once."""
    return ", ".join(
        name if names.count(name) == 1 else f"{name}, {names.count(name)} readings"
        for name in dict.fromkeys(names)
    )


def _visit_past(visit: Visit, role: str) -> Past:
    _, words = OUTCOMES[state_told(visit.state, role)]
    tried = f", {visit.try_ons} try-on{'s' if visit.try_ons != 1 else ''}"
    helmet = f", helmet {visit.helmet.code}" if visit.helmet else ""
    return Past(
        visit.ended_at or visit.began_at,
        f"Fit visit: {words}{helmet}{tried}",
        visit.fitter.name if visit.fitter else "",
    )


def _issue_past(issue: Issue) -> list[Past]:
    code = issue.helmet.code
    past = [Past(issue.since, f"{code} issued as {PURPOSES.get(issue.purpose, 'helmet')}", "")]
    if issue.until is not None:
        condition = f": {issue.condition}" if issue.condition else ""
        past.append(Past(issue.until, f"{code} returned{condition}", ""))
    return past


def about(record: PlayerRecord) -> list[str]:
    """Position and what is worn, in a line under the name."""
    player = record.player
    worn = over_words([Over(kind) for kind in player.worn])
    glasses = {True: "glasses", False: "no glasses", None: ""}[player.glasses]
    left = "" if player.is_here or player.erased_at else "not on the roster any more"
    return [word for word in (player.position, worn, glasses, left) if word]


def hold_words(record: PlayerRecord) -> str:
    """Until when nothing is erased; empty where no hold stands."""
    until = record.player.hold_until
    return f"Nothing is erased before {us_date(until)}." if until else ""


def facts(record: PlayerRecord) -> list[tuple[str, str]]:
    """What is kept of the body, as it is typed."""
    player = record.player
    kept = (
        ("Sex", player.sex),
        ("Year of birth", str(player.birth_year or "")),
        ("Class", player.school_class),
        ("Height", stature_words(player.stature_mm)),
        ("Weight", weight_words(player.weight_kg)),
    )
    return [(name, value or "not known") for name, value in kept]
