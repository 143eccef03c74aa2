"""The section drawing of a player's last build, worked out when the page is there already."""

from dataclasses import dataclass
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.safestring import SafeString

from helmwright.catalogue import ModelSheet, Zone
from helmwright.records.models import Visit
from helmwright.records.readers.station_visit import begun
from helmwright.records.readers.visit_events import events_of
from helmwright.records.sheets import sheet_of
from helmwright.web.allowed import allowed
from helmwright.web.desk.part_words import size_words
from helmwright.web.guiding.asked import Answer, Json
from helmwright.web.guiding.pool import NoAnswerError, guides
from helmwright.web.station.visit_now import asked_of

LATER = "The drawing was not worked out in time. Open the page again in a moment."
NOTHING = "No drawing: nothing is proposed or accepted in that visit now."


@dataclass(frozen=True, slots=True)
class Pressed:
    """One zone under the build, over the possible heads."""

    number: int
    zone: str
    label: SafeString
    expected: str
    mean_kpa: float
    gap_mm: float


@dataclass(frozen=True, slots=True)
class Drawn:
    """What is shown of a build.

    Parameters
    ----------
    svg
        Sections from the side and from above; empty where there are none.
    zones
        What to expect zone by zone.
    found
        What was found, stage by stage; of a visit that has ended.
    """

    svg: SafeString
    zones: tuple[Pressed, ...]
    found: tuple[Json, ...]


@allowed("player-drawing")
def player_drawing(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """Sections, zones and findings of the last visit that proposed anything.

    Takes seconds where the visit is folded anew; the process that guides it remembers.
    """
    last = (
        Visit.objects.filter(player=player_id, found_right__isnull=False)
        .order_by("-began_at")
        .first()
    )
    shown = _shown(last.pk) if last else {"drawn": None, "why": NOTHING}
    return render(request, "web/desk_drawing.html", shown)


def _shown(visit: UUID) -> dict[str, object]:
    row = begun(visit)
    events = events_of(row) if row else ()
    if row is None or not events:
        return {"drawn": None, "why": NOTHING}
    try:
        answer = guides().ask(asked_of(row, events))
    except (NoAnswerError, ValueError):
        return {"drawn": None, "why": LATER}
    drawn = drawn_of(answer, sheet_of(row.sheet), is_over=row.ended_at is not None)
    return {"drawn": drawn, "why": "" if drawn.svg else NOTHING}


def drawn_of(answer: Answer, sheet: ModelSheet, *, is_over: bool) -> Drawn:
    """What a page shows of what a guide answered."""
    drawing = answer.drawing
    return Drawn(
        svg=SafeString(drawing.get("now") or drawing.get("after") or ""),
        zones=tuple(
            Pressed(
                zone["number"],
                zone["zone"],
                _bag(sheet, zone["zone"], zone["label"]),
                zone["expected"],
                zone["mean_kpa"],
                zone["gap_mm"],
            )
            for zone in answer.zones
        ),
        found=answer.found if is_over else (),
    )


def _bag(sheet: ModelSheet, zone: str, label: str) -> SafeString:
    """What is written on the pad's bag, its fraction built."""
    kind = sheet.pad(Zone(zone))
    thick = dict(zip(kind.labels, kind.thicknesses_mm, strict=True))
    return size_words(label, thick.get(label))
