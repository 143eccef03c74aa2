"""What is in the helmets of a visit follows what is on the head; stock moves with it."""

from collections.abc import Collection
from dataclasses import replace

from helmwright.records.models import Entry, HelmetBuild, Visit
from helmwright.records.projection.builds import pads_of, set_build
from helmwright.records.readers.visit_start import build_of
from helmwright.records.visit_fold import Folded, Known
from helmwright.visit import Event, PutOn
from helmwright.visit.at_hand import at_hand
from helmwright.visit.wire_build import build_to_wire


def taken_up(visit: Visit, event: Event, before: Folded, known: Known) -> Event:
    """A build put on, with what lay in the visit's helmet where the visit does not know it.

    Nothing is added where nobody named a helmet of the build's shell.

    Raises
    ------
    CannotComeError
        Where the visit has not begun.
    """
    helmet = visit.helmet
    if not isinstance(event, PutOn) or helmet is None or helmet.shell != event.build.shell:
        return event
    lies = build_of(helmet.shell, pads_of(helmet), known.sheet)
    thought = at_hand(before.visit, known.sheet).lies_for(event.build)
    return replace(event, lay=None if lies == thought else lies)


def put_on(entry: Entry, visit: Visit, event: PutOn, known: Known) -> None:
    """Bring the visit's helmet to what is on the head.

    A helmet of another shell than the one on the head is left as it is: that build is in a helmet
    that nobody named.
    """
    helmet = visit.helmet
    if helmet is None or event.build.shell != helmet.shell:
        return
    wire = build_to_wire(event.build, known.sheet)
    pads = {zone: pad["pad"] for zone, pad in wire["pads"].items()}
    set_build(entry, helmet, pads, visit.store)


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
