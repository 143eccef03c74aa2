"""What follows for model sheets, stores, helmets and parts, by kind."""

from collections.abc import Callable, Mapping
from typing import Any

from helmwright.records.kinds import things
from helmwright.records.models import Entry
from helmwright.records.projection import (
    builds,
    helmets,
    issue,
    reservations,
    sheets,
    stock,
    take_back,
    taking_in,
)

PROJECTORS: Mapping[str, Callable[[Entry, Any], None]] = {
    things.SheetAdded.KIND: sheets.sheet_added,
    things.StoreOpened.KIND: sheets.store_opened,
    things.HelmetAdded.KIND: helmets.helmet_added,
    things.HelmetChanged.KIND: helmets.helmet_changed,
    things.HelmetHeld.KIND: helmets.helmet_held,
    things.HelmetReleased.KIND: helmets.helmet_released,
    things.HelmetRetired.KIND: helmets.helmet_retired,
    things.HelmetMoved.KIND: helmets.helmet_moved,
    things.PartsMoved.KIND: stock.parts_moved,
    things.PartsCounted.KIND: stock.parts_counted,
    things.PartsChanged.KIND: builds.parts_changed,
    things.FaceChanged.KIND: builds.face_changed,
    things.TakenIn.KIND: taking_in.taken_in,
    things.TakeInUndone.KIND: take_back.take_in_undone,
    **reservations.PROJECTORS,
    **issue.PROJECTORS,
}
