"""What follows where it is not known who said something, and where it is said who did."""

from collections.abc import Callable, Mapping
from typing import Any

from helmwright.records.kinds.speakers import SpeakerConfirmed, SpeakerDoubted
from helmwright.records.models import Doubt, Entry
from helmwright.records.projection.known import known_staff, who_said
from helmwright.records.set_aside import SetAsideError


def speaker_doubted(_entry: Entry, said: SpeakerDoubted) -> None:
    """Somebody has to ask."""
    if Doubt.objects.filter(entry=said.entry).exists():
        raise SetAsideError("Who said this is asked already.")
    Doubt.objects.create(
        entry=said.entry, named=known_staff(said.named), signed_in=known_staff(said.signed_in)
    )


def speaker_confirmed(entry: Entry, said: SpeakerConfirmed) -> None:
    """It was the person named, or it was not; the last word holds."""
    doubted = Doubt.objects.filter(entry=said.entry)
    if not doubted.update(holds=said.holds, by=who_said(entry), at=entry.server_time):
        raise SetAsideError("Nobody doubted who said this. There is nothing to confirm.")


PROJECTORS: Mapping[str, Callable[[Entry, Any], None]] = {
    SpeakerDoubted.KIND: speaker_doubted,
    SpeakerConfirmed.KIND: speaker_confirmed,
}
