"""The event of a visit as it is kept: what may have to be erased is parted from the rest."""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from pydantic import ValidationError

from helmwright.visit.wire_fault import first_fault
from helmwright.visit.wire_form import EVENT_FORM

WORDS_IN: Mapping[str, str] = {
    "symptom reported": "words",
    "stopped": "reason",
    "put on": "reason",
}
"""Events in which a person says something in words, and the field that holds them."""

STARTED = "started"


def parted(data: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of "visit said", with nothing private left in the event."""
    event = data.get("event")
    if not isinstance(event, Mapping):
        return dict(data)
    public, beside = dict(event), dict(data)
    field = WORDS_IN.get(str(event.get("event")), "")
    said = public.pop(field, "") if field else ""
    if said and not beside.get("words"):
        beside["words"] = said
    if public.get("event") == STARTED:
        beside.setdefault("stated", public.pop("stated", {}))
        beside.setdefault("worn", public.pop("worn", None))
        public.pop("stated", None)
        public.pop("worn", None)
    return beside | {"event": public}


def whole(
    event: Mapping[str, Any],
    words: str = "",
    stated: Mapping[str, Any] | None = None,
    worn: Sequence[str] | None = None,
) -> dict[str, Any]:
    """The event as a visit reads it; what was erased is empty."""
    found = dict(event)
    kind = str(event.get("event"))
    field = WORDS_IN.get(kind, "")
    if field and (words or kind != "put on"):
        found[field] = words
    if kind == STARTED:
        found |= {"stated": dict(stated or {}), "worn": None if worn is None else list(worn)}
    return found


def checked_event(
    event: Mapping[str, Any],
    words: str,
    stated: Mapping[str, Any],
    worn: Sequence[str] | None,
) -> None:
    """Refuse what is no event of a visit.

    Raises
    ------
    ValueError
        Which field is wrong, and what would be right.
    """
    try:
        EVENT_FORM.validate_json(json.dumps(whole(event, words, stated, worn), allow_nan=False))
    except ValidationError as error:
        fault = first_fault(error, "event")
        raise ValueError(f"{fault.where}: {fault.wrong}; {fault.right}") from error
