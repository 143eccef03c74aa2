"""What the forms on one helmet have in common."""

from collections.abc import Mapping
from typing import Any

from helmwright.records.kinds import Payload
from helmwright.records.models import Helmet, Store
from helmwright.web.desk.opened import OpenedForm

NO_NAMES = "No names of players: it is of the helmet, and stays when a player is erased."
"""Beside free text that no erasure reaches."""


class ActForm(OpenedForm):
    """A form whose errors are said beside the field and read with it."""

    title = ""
    button = ""
    kind: type[Payload]

    def __init__(self, *args: Any, helmet: Helmet | None = None, **kwargs: Any) -> None:
        kwargs.setdefault("auto_id", f"{type(self).__name__.lower()}-%s")
        super().__init__(*args, **kwargs)
        self.helmet = helmet

    def payload(self) -> Payload:
        """What the form says, once it is valid."""
        raise NotImplementedError

    @property
    def says_nothing(self) -> bool:
        """Whether nothing is left to be said, because others' word holds."""
        return bool(self.asked) and not self.changed

    def refuse_stale(self) -> None:
        """Refuse what was changed otherwise since the page was opened.

        Raises
        ------
        MeanwhileError
            Which fields.
        """

    @property
    def cleaned(self) -> Mapping[str, Any]:
        """What was understood."""
        return self.cleaned_data

    @property
    def of(self) -> Helmet:
        """The helmet that it is about."""
        assert self.helmet is not None  # noqa: S101 - forms on one helmet are given it
        return self.helmet


def stores() -> list[tuple[str, str]]:
    """Stores in use, to choose from."""
    rows = Store.objects.filter(is_closed=False).order_by("name")
    return [(str(store.id), store.name) for store in rows]
