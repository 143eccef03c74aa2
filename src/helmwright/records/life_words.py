"""What an entry did to a helmet, as one sentence."""

from collections.abc import Callable, Mapping
from typing import Any
from uuid import UUID

from helmwright.records.kinds import Payload, things, visits

Names = Mapping[UUID, str]
"""Of stores and players, by their IDs."""


def life_words(said: Payload, names: Names) -> str:
    """One sentence, without who and when."""
    told = _TOLD.get(type(said))
    return told(said, names) if told else said.KIND.capitalize() + "."


def pads_in_words(pads: Mapping[str, str]) -> str:
    """Such as "crown 5/8 in, front 1 in"."""
    return ", ".join(f"{zone} {label}" for zone, label in pads.items())


def _store(store: UUID, names: Names) -> str:
    return names.get(store, "a store that is not here")


def _player(player: UUID, names: Names) -> str:
    return names.get(player, "a player who is not here")


def _added(said: things.HelmetAdded, names: Names) -> str:
    return f"Added as shell {said.shell}, in {_store(said.store, names)}."


def _begun(said: visits.VisitBegun, names: Names) -> str:
    return f"A fit visit of {_player(said.player, names)} began with it."


def _signed(said: visits.Acknowledged, names: Names) -> str:
    whose = "for" if said.signed_by == "guardian" else "by"
    return f"The warning was signed {whose} {_player(said.player, names)}."


def _changed(said: things.PartsChanged, names: Names) -> str:
    why = f", for {said.why}" if said.why else ""
    return f"{pads_in_words(said.pads).capitalize()} put in from {_store(said.store, names)}{why}."


def _face(said: things.FaceChanged, _names: Names) -> str:
    parts = [
        f"{what}: {name or 'none'}"
        for what, name in (("face guard", said.guard), ("chin strap", said.strap))
        if name is not None
    ]
    return f"{'; '.join(parts).capitalize()}."


def _issued(said: visits.HelmetIssued, names: Names) -> str:
    return f"Issued to {_player(said.player, names)}, for {said.purpose}."


def _returned(said: visits.HelmetReturned, names: Names) -> str:
    condition = f": {said.condition}" if said.condition else ""
    return f"Returned to {_store(said.store, names)}{condition}."


_TOLD: Mapping[type[Payload], Callable[[Any, Names], str]] = {
    things.HelmetAdded: lambda said, names: (
        f"Added as shell {said.shell}, in {_store(said.store, names)}."
    ),
    things.HelmetChanged: lambda *_: "Dates and descriptions changed.",
    things.HelmetHeld: lambda said, _: f"Put on hold: {said.why}.",
    things.HelmetReleased: lambda *_: "Hold lifted.",
    things.HelmetRetired: lambda said, _: f"Retired: {said.why}.",
    things.HelmetMoved: lambda said, names: f"Moved to {_store(said.store, names)}.",
    things.PartsChanged: _changed,
    things.FaceChanged: _face,
    visits.VisitBegun: lambda said, names: (
        f"A fit visit of {_player(said.player, names)} began with it."
    ),
    visits.VisitSaid: lambda *_: "Pads changed in a fit visit.",
    visits.HelmetReserved: lambda *_: "Reserved for a fit visit.",
    visits.Acknowledged: lambda said, names: (
        f"The warning was signed by {_player(said.player, names)}."
    ),
    visits.HelmetIssued: _issued,
    visits.HelmetReturned: _returned,
}
