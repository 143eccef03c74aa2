"""A head as a page shows it: every measure with its readings, and what does not go together."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from helmwright.anatomy import (
    MEASURE_KEYS,
    AgeError,
    CovariateError,
    Finding,
    HeadEstimate,
    ImplausibleReadingError,
    check_readings,
    combined,
)
from helmwright.records import models
from helmwright.records.readers.heads import NINE_OF_TEN, estimate_of, readings_of, stated_of


@dataclass(frozen=True, slots=True)
class MeasureFact:
    """One measure of a head.

    Parameters
    ----------
    key
        Of the measure.
    mean_mm, low_mm, high_mm
        What is believed of it, and where nine of ten such heads lie [mm]; None where nothing can
        be said.
    readings
        Rows, withdrawn ones included, oldest first.
    wants_third
        Whether two readings lie further apart than clean ones should.
    set_aside_mm
        A reading that the others leave alone [mm].
    """

    key: str
    mean_mm: float | None
    low_mm: float | None
    high_mm: float | None
    readings: tuple[models.Reading, ...]
    wants_third: bool = False
    set_aside_mm: float | None = None

    @property
    def is_read(self) -> bool:
        """Whether a reading of it stands."""
        return any(not row.is_withdrawn for row in self.readings)


@dataclass(frozen=True, slots=True)
class HeadFacts:
    """One head.

    Parameters
    ----------
    measures
        Every measure, those that were read first.
    findings
        What a person should look at, by name.
    why_not
        Why nothing can be estimated; empty where it can.
    """

    measures: tuple[MeasureFact, ...]
    findings: tuple[Finding, ...]
    why_not: str = ""


def head_facts(
    player: models.Player, rows: Sequence[models.Reading], today: date
) -> tuple[HeadFacts, HeadEstimate | None]:
    """What is believed of a head, and the estimate itself where there is one."""
    try:
        estimate = estimate_of(player, rows, today)
        why_not = ""
    except (AgeError, CovariateError, ImplausibleReadingError) as error:
        estimate, why_not = None, str(error)
    facts = [_measure(key, player, rows, estimate, today) for key in MEASURE_KEYS]
    order = sorted(facts, key=lambda fact: (not fact.is_read, not fact.readings))
    return HeadFacts(tuple(order), _findings(player, rows, today), why_not), estimate


def _findings(
    player: models.Player, rows: Sequence[models.Reading], today: date
) -> tuple[Finding, ...]:
    readings = readings_of(player, rows, today)
    if not readings:
        return ()
    try:
        return check_readings(readings, **stated_of(player, today))
    except (AgeError, CovariateError):
        return ()


def _measure(
    key: str,
    player: models.Player,
    rows: Sequence[models.Reading],
    estimate: HeadEstimate | None,
    today: date,
) -> MeasureFact:
    mine = [row for row in rows if row.measure == key]
    groups = combined(readings_of(player, mine, today))
    low, high = estimate.interval(key, NINE_OF_TEN) if estimate else (None, None)
    return MeasureFact(
        key=key,
        mean_mm=estimate.mean_of(key) if estimate else None,
        low_mm=low,
        high_mm=high,
        readings=tuple(mine),
        wants_third=any(group.wants_third for group in groups),
        set_aside_mm=next(
            (group.set_aside_mm for group in groups if group.set_aside_mm is not None), None
        ),
    )
