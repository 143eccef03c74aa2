"""What is in the helmets of a visit follows what is on the head; stock moves with it."""

from collections.abc import Collection
from dataclasses import replace

from django.db.models import QuerySet

from helmwright.fit.outlook import Build
from helmwright.records.models import Entry, Helmet, HelmetBuild, Visit, VisitStep
from helmwright.records.projection.builds import pads_of, set_build
from helmwright.records.projection.reservations import give_to_visit, take_from_visit
from helmwright.records.readers.helmet_refusal import helmet_refusal
from helmwright.records.readers.visit_start import build_of
from helmwright.records.visit_fold import Folded, Known
from helmwright.records.visit_stand import standing_places
from helmwright.visit import Event, PutOn, Started
from helmwright.visit.at_hand import at_hand
from helmwright.visit.wire_build import build_to_wire


def helmet_of(entry: Entry, visit: Visit, event: Event, before: Folded) -> Helmet | None:
    """The helmet that a visit starts with, or in which a build is put on.

    The visit's helmet where that has the build's shell; else the one of that shell that was on the
    head last, where it can still be had. None where the build is in a helmet that nobody named.
    """
    if isinstance(event, Started):
        return visit.helmet
    if not isinstance(event, PutOn):
        return None
    shell = event.build.shell
    if visit.helmet is not None and visit.helmet.shell == shell:
        return visit.helmet
    of_shell = _stand(visit, before).filter(helmet__shell=shell).last()
    return _obtainable(entry, visit, of_shell.helmet if of_shell else None)


def taken_up(helmet: Helmet | None, event: Event, before: Folded, known: Known) -> Event:
    """A build put on, with what lay in its helmet where the visit does not know it.

    Raises
    ------
    CannotComeError
        Where the visit has not begun.
    """
    if not isinstance(event, PutOn) or helmet is None:
        return event
    lies = build_of(helmet.shell, pads_of(helmet), known.sheet)
    thought = at_hand(before.visit, known.sheet).lies_for(event.build)
    return replace(event, lay=None if lies == thought else lies)


def put_on(entry: Entry, visit: Visit, helmet: Helmet, build: Build, known: Known) -> None:
    """Bring a helmet to what is on the head."""
    wire = build_to_wire(build, known.sheet)
    pads = {zone: pad["pad"] for zone, pad in wire["pads"].items()}
    set_build(entry, helmet, pads, visit.store)


def follow_the_head(entry: Entry, visit: Visit, after: Folded) -> None:
    """The helmet on the head is the visit's, whichever was reserved last.

    Where nobody knows it, or others have it by now, the visit has none but one of that shell that
    was named since: otherwise the build that is accepted would be issued in another helmet. With
    nothing on the head, a visit that has none has again what was there before.
    """
    last, worn = _stand(visit, after).last(), after.visit.now
    if last is None or (worn is None and visit.helmet is not None):
        return
    helmet = _obtainable(entry, visit, last.helmet)
    if helmet is not None:
        if helmet.id != visit.helmet_id:
            give_to_visit(entry, visit, helmet)
    elif worn is not None and not _may_be_worn(visit.helmet, last.helmet, worn.build.shell):
        take_from_visit(entry, visit)


def _may_be_worn(helmet: Helmet | None, worn: Helmet | None, shell: int) -> bool:
    """Whether the visit's helmet may be the one on the head, which cannot be had or is not known.

    A visit without a helmet claims nothing.
    """
    if helmet is None:
        return True
    return helmet.shell == shell if worn is None else helmet.id == worn.id


def _stand(visit: Visit, folded: Folded) -> QuerySet[VisitStep]:
    """The start, and every build put on that stands, in order."""
    places = {0, *standing_places(folded.events, PutOn)}
    steps = visit.steps.filter(place__in=places).select_related("helmet__sheet")
    return steps.order_by("place")


def _obtainable(entry: Entry, visit: Visit, helmet: Helmet | None) -> Helmet | None:
    """The helmet where it can be had for the visit; None where it cannot, or is not known."""
    if helmet is None or helmet_refusal(helmet, visit.player_id, now=entry.server_time):
        return None
    return helmet


def take_back(entry: Entry, visit: Visit, places: Collection[int]) -> None:
    """Bring back what was in a helmet before a build was put on, where that is undone.

    Parameters
    ----------
    entry, visit
        The undoing, and whose.
    places
        Steps of the visit that put a build on and stand no more.

    Notes
    -----
    Whichever helmet the step changed, and only the zones that still are as it left them: what was
    changed since at the desk, or in another visit, stays.
    """
    for step in visit.steps.filter(place__in=places):
        made = HelmetBuild.objects.select_related("helmet__sheet").filter(entry=step.entry).first()
        if made is not None:
            _unmake(entry, visit, made)


def _unmake(entry: Entry, visit: Visit, made: HelmetBuild) -> None:
    helmet = made.helmet
    before = helmet.builds.filter(pk__lt=made.pk).order_by("-pk")[0]
    now = pads_of(helmet)
    pads = {
        zone: before.pads[zone]
        for zone, pad in made.pads.items()
        if pad != before.pads[zone] and now[zone] == pad
    }
    set_build(entry, helmet, pads, visit.store)
