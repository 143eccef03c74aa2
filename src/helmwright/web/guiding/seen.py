"""What a station sees of a build: its sections, what to expect zone by zone, what else there is."""

from collections.abc import Sequence
from dataclasses import dataclass

from helmwright.anatomy import spoken_name
from helmwright.catalogue import ModelSheet, Zone
from helmwright.drawing import NUMBERS, drawing_svg, screen_svg
from helmwright.fit.account import account
from helmwright.fit.finding import Sign
from helmwright.fit.next_build import Option
from helmwright.fit.outlook import Build, BuildOutlook, MeasureGain, ZoneOutlook
from helmwright.fit.search import origin
from helmwright.fit.verdict import Bands
from helmwright.reports.drawings import drawn_sections, illustrative_words
from helmwright.visit import Accepted, Event, Guide, Protocol, Visit
from helmwright.visit.belief import batches
from helmwright.visit.wire_build import build_to_wire
from helmwright.web.guiding.asked import Json

OTHERS = 3
"""Builds that are told beside the proposed one."""


@dataclass(frozen=True, slots=True)
class Seen:
    """Drawings, zones, and what else could be tried; nothing where nothing is shown.

    `paper` is the accepted build for a card: black on white, by itself.
    """

    now: str | None = None
    after: str | None = None
    paper: str | None = None
    zones: tuple[Json, ...] = ()
    other_builds: tuple[Json, ...] = ()
    measure_next: tuple[Json, ...] = ()


def seen(guide: Guide, visit: Visit, events: Sequence[Event]) -> Seen:
    """What is shown of a visit: where a build is proposed, or accepted.

    Parameters
    ----------
    guide, visit
        What is believed, and where the visit stands.
    events
        What happened in it.

    Notes
    -----
    While a build is checked nothing that is expected of it is shown, so as not to lead the one who
    checks.
    """
    proposed = visit.proposal.build if visit.proposal else None
    is_accepted = isinstance(visit.ended, Accepted)
    if proposed is None and not is_accepted:
        return Seen()
    worn = visit.try_ons[-1].build if visit.try_ons else None
    builds = [build for build in (worn, proposed) if build is not None]
    outlooks = {build: _outlook(guide, visit, build) for build in builds}
    told = outlooks[builds[-1]]
    return Seen(
        now=None if worn is None else _drawn(guide, visit, outlooks[worn], "now"),
        after=None if proposed is None else _drawn(guide, visit, told, "after"),
        paper=_on_paper(guide, visit, told) if is_accepted else None,
        zones=_zones(told, guide, visit),
        other_builds=tuple(
            _other(option, guide.sheet)
            for option in guide.choices(events)
            if option.build != proposed
        )[:OTHERS],
        measure_next=tuple(_gain(gain) for gain in guide.gains(events) if gain.gain > 0.0),
    )


def _outlook(guide: Guide, visit: Visit, build: Build) -> BuildOutlook:
    """What to expect of a build after everything that was found."""
    cloud = guide.beliefs.after(visit, batches(guide.protocol.checks, visit)).cloud
    start = visit.in_helmet or Build(build.shell, guide.sheet.delivered)
    return account(
        cloud.trial(build.shell),
        build,
        origin(build, start, guide.sheet),
        rater=guide.beliefs.rater,
        rest=cloud.rest(build),
    )


def _drawn(guide: Guide, visit: Visit, outlook: BuildOutlook, name: str) -> str:
    """The sections from the side and from above."""
    head = guide.beliefs.estimate(visit)
    side, level, _ = drawn_sections(head, guide.sheet, outlook)
    guess = illustrative_words(head)
    title = f"Shell {outlook.build.shell} on the middle head"
    return screen_svg((side, level), title=f"{title}. {guess}" if guess else title, name=name)


def _on_paper(guide: Guide, visit: Visit, outlook: BuildOutlook) -> str:
    """The same two sections in black."""
    head = guide.beliefs.estimate(visit)
    side, level, _ = drawn_sections(head, guide.sheet, outlook)
    title = f"Shell {outlook.build.shell} on the middle head"
    return drawing_svg((side, level), title=title, captions=False)


def _zones(outlook: BuildOutlook, guide: Guide, visit: Visit) -> tuple[Json, ...]:
    found = _found(guide.protocol, visit)
    return tuple(
        {
            "zone": str(each.zone),
            "number": NUMBERS[each.zone],
            "label": each.pad_label,
            "mean_kpa": round(each.pressure_kpa.mean, 2),
            "gap_mm": round(max(-each.stroke_mm.mean, 0.0), 2),
            "finding": found.get(each.zone, ""),
            "expected": _expected(each, guide.beliefs.bands),
        }
        for each in sorted(outlook.zones, key=lambda each: NUMBERS[each.zone])
        if guide.sheet.pad(each.zone).seats
    )


def _found(protocol: Protocol, visit: Visit) -> dict[Zone, str]:
    """What was answered last of each zone of the build that was on the head last."""
    given = visit.try_ons[-1].answers if visit.try_ons else ()
    zones = {check.key: check.zone for check in protocol.checks if check.sign is Sign.ZONE}
    return {zone: each.word for each in given if (zone := zones.get(each.check)) is not None}


def _expected(zone: ZoneOutlook, bands: Bands) -> str:
    """What a fitter would find at the mean pressure."""
    if zone.pressure_kpa.mean < bands.loose_kpa:
        return "loose"
    return "tight" if zone.pressure_kpa.mean > bands.tight_kpa else "snug"


def _other(option: Option, sheet: ModelSheet) -> Json:
    return {
        "build": build_to_wire(option.build, sheet),
        "found_right": round(option.found_right.value, 4),
        "fits": round(option.fits.value, 4),
        "changes": [str(zone) for zone in option.changes],
        "minutes": round(option.minutes, 1),
    }


def _gain(gain: MeasureGain) -> Json:
    """What a measure would add to the chance that the build tried first fits [1]."""
    name = spoken_name(gain.measure)
    return {"measure": gain.measure, "name": name, "gain": round(gain.gain, 4)}
