"""A first question that nobody asked: it leaves everything that takes long loaded."""

from helmwright.anatomy import Reading
from helmwright.anatomy.prior import Stated
from helmwright.catalogue import packaged_models, packaged_text, parse_sheet
from helmwright.visit import Started
from helmwright.visit.sheet_digest import sheet_digest
from helmwright.visit.wire import event_to_wire
from helmwright.web.guiding.asked import Asked
from helmwright.web.guiding.worker import answer

TAPE_MM = 575.0


def rehearse() -> None:
    """Answer what comes first for an invented head and an invented helmet."""
    text = packaged_text(packaged_models()[0])
    sheet = parse_sheet(text, name="the sheet")
    reading = Reading("tape_circumference", TAPE_MM)
    digest = sheet_digest(sheet)
    started = Started("a rehearsal", (reading,), Stated(), None, digest)
    answer(Asked("a rehearsal", text, digest, (event_to_wire(started, sheet),)))
