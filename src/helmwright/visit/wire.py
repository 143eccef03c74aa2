"""Every event of a visit to one JSON object, and back to the very same event."""

import json
from collections.abc import Mapping
from typing import Any, get_args

from pydantic import ValidationError

from helmwright.anatomy import Reading, UnknownMeasureError
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import Build
from helmwright.visit.event import (
    Accepted,
    Answered,
    Event,
    LookAsked,
    MeasureAsked,
    Measured,
    MeasureSkipped,
    NoBuild,
    NotHere,
    Paused,
    Proposed,
    PutOn,
    Resumed,
    Started,
    Stopped,
    SymptomReported,
    Undone,
    Would,
)
from helmwright.visit.wire_build import build_from_form, build_to_wire
from helmwright.visit.wire_fault import WireError, first_fault
from helmwright.visit.wire_form import (
    EVENT_FORM,
    AcceptedForm,
    AnsweredForm,
    BuildForm,
    Form,
    LookAskedForm,
    MeasureAskedForm,
    MeasuredForm,
    MeasureSkippedForm,
    NoBuildForm,
    NotHereForm,
    PausedForm,
    ProposedForm,
    PutOnForm,
    ReadingForm,
    ResumedForm,
    ShelfForm,
    StartedForm,
    StatedForm,
    StoppedForm,
    SymptomForm,
    UndoneForm,
    WouldForm,
)

Wire = dict[str, Any]

FORMS: Mapping[type, type[Form]] = {
    Started: StartedForm,
    MeasureAsked: MeasureAskedForm,
    Measured: MeasuredForm,
    MeasureSkipped: MeasureSkippedForm,
    Proposed: ProposedForm,
    NotHere: NotHereForm,
    PutOn: PutOnForm,
    Answered: AnsweredForm,
    LookAsked: LookAskedForm,
    Undone: UndoneForm,
    Paused: PausedForm,
    Resumed: ResumedForm,
    SymptomReported: SymptomForm,
    Stopped: StoppedForm,
    Accepted: AcceptedForm,
    NoBuild: NoBuildForm,
}
"""The form of each event."""

NAMES: Mapping[type, str] = {
    kind: get_args(form.model_fields["event"].annotation)[0] for kind, form in FORMS.items()
}
"""What each event is called in the field "event"."""

_KINDS = {name: kind for kind, name in NAMES.items()}


def event_to_wire(event: Event, sheet: ModelSheet) -> Wire:
    """The event as one JSON object.

    Parameters
    ----------
    event
        Any event.
    sheet
        Names shells and pads.

    Raises
    ------
    WireError
        For a build that the sheet does not have, or what could not be read again.

    Notes
    -----
    What is as usual is left out: a reading over nothing that was stated, an empty reason.
    """
    wire = {"event": NAMES[type(event)]} | _written(event, FORMS[type(event)], sheet)
    _checked(wire)
    return wire


def event_form(event: Event, sheet: ModelSheet) -> Any:
    """The event in its form, to be written within a larger one; raises as `event_to_wire`."""
    return _checked(event_to_wire(event, sheet))


def event_from_wire(data: Mapping[str, Any], sheet: ModelSheet) -> Event:
    """The event that a JSON object holds.

    Parameters
    ----------
    data
        As `event_to_wire` makes it; what is as usual may stand there or not.
    sheet
        The sheet that it was written with.

    Raises
    ------
    WireError
        For an unknown event or field, a field of another kind, a build that the sheet does not
        have, or a reading of nobody.
    """
    form = _checked(data)
    kind: Any = _KINDS[data["event"]]
    event: Event = kind(**_fields(form, sheet))
    return event


def _checked(data: Mapping[str, Any]) -> Form:
    try:
        text = json.dumps(data, allow_nan=False)
    except (TypeError, ValueError) as error:
        raise WireError(f"this is no JSON object ({error})") from error
    try:
        form: Form = EVENT_FORM.validate_json(text)
    except ValidationError as error:
        raise first_fault(error, "event") from error
    return form


def _written(thing: Any, form: type[Form], sheet: ModelSheet) -> Wire:
    """The fields of an event or a part of one, without those that are as usual."""
    return {
        name: _out(getattr(thing, name), sheet)
        for name, field in form.model_fields.items()
        if name != "event" and (field.is_required() or getattr(thing, name) != field.default)
    }


def _out(value: Any, sheet: ModelSheet) -> Any:
    match value:
        case Build():
            return build_to_wire(value, sheet)
        case Reading():
            return _written(value, ReadingForm, sheet)
        case Would():
            return _written(value, WouldForm, sheet)
        case (str(place), str(size), int(count)):
            return {"place": place, "size": size, "count": count}
        case tuple():
            return [_out(each, sheet) for each in value]
        case dict():
            return {name: _out(each, sheet) for name, each in value.items()}
        case str():
            return str(value)
        case float():
            return float(value)
    return value


def _fields(form: Form, sheet: ModelSheet) -> Wire:
    return {
        name: _in(getattr(form, name), sheet, name)
        for name in type(form).model_fields
        if name != "event"
    }


def _in(value: Any, sheet: ModelSheet, where: str) -> Any:
    match value:
        case BuildForm():
            return build_from_form(value, sheet, where)
        case ReadingForm():
            return _reading(value, where)
        case WouldForm():
            return Would(**_fields(value, sheet))
        case ShelfForm():
            return value.place, value.size, value.count
        case StatedForm():
            # Nothing said is not the same as a null that somebody wrote.
            said = value.model_fields_set
            return {name: getattr(value, name) for name in StatedForm.model_fields if name in said}
        case tuple():
            return tuple(_in(each, sheet, f"{where} {at}") for at, each in enumerate(value, 1))
    return value


def _reading(form: ReadingForm, where: str) -> Reading:
    try:
        return Reading(**{name: getattr(form, name) for name in ReadingForm.model_fields})
    except (ValueError, UnknownMeasureError) as error:
        raise WireError(str(error), where) from error
