"""What is in the helmet of a visit follows what is on the head; stock moves with it."""

from helmwright.records.models import Entry, Helmet, HelmetBuild, Visit
from helmwright.records.projection.builds import set_build
from helmwright.records.visit_fold import Folded, Known
from helmwright.visit.wire_build import build_to_wire


def follow(entry: Entry, visit: Visit, after: Folded, known: Known) -> None:
    """Bring the visit's helmet to what is on the head, or to what it was where that is undone.

    A helmet of another shell than the one on the head is left as it is: that build is in a helmet
    that nobody named.
    """
    helmet = visit.helmet
    if helmet is None:
        return
    tried = after.visit.try_ons
    if not tried:
        pads = _before_visit(visit, helmet)
    elif tried[-1].build.shell == helmet.shell:
        wire = build_to_wire(tried[-1].build, known.sheet)
        pads = {zone: pad["pad"] for zone, pad in wire["pads"].items()}
    else:
        pads = {}
    set_build(entry, helmet, pads, visit.store)


def _before_visit(visit: Visit, helmet: Helmet) -> dict[str, str]:
    """What was in it before the visit put anything on."""
    first = visit.steps.filter(event__event="put on").order_by("place").first()
    if first is None:
        return {}
    builds = HelmetBuild.objects.filter(helmet=helmet, entry__lt=first.entry)
    before = builds.order_by("-entry").first()
    pads: dict[str, str] = before.pads if before else {}
    return pads
