"""What a page carries of how things stood when it was opened: hidden, and signed by the room."""

from collections.abc import Mapping, Sequence
from typing import Any

from django.core import signing
from django.utils.html import format_html
from django.utils.safestring import SafeString

OPENED, WAS, ASKED = "opened", "was", "asked"
SALT = "helmwright.opened"


def opened_mark(was: Mapping[str, Any], asked: Sequence[str] = ()) -> SafeString:
    """Stands hidden in a form; nothing in a form on something new."""
    if not was:
        return SafeString("")
    carried = signing.dumps({WAS: was, ASKED: asked}, salt=SALT)
    return format_html('<input type="hidden" name="{}" value="{}">', OPENED, carried)


def sent_with(data: Mapping[str, Any] | None) -> dict[str, Any]:
    """What a page carried; nothing where it carried nothing that the room gave out."""
    try:
        found: dict[str, Any] = signing.loads((data or {}).get(OPENED, ""), salt=SALT)
    except signing.BadSignature:
        return {}
    return found


def opened_with(stands: Mapping[str, Any], sent: Mapping[str, Any]) -> dict[str, Any]:
    """What stood there when the page was opened; what it does not tell stands there still."""
    was = sent.get(WAS, {})
    return {name: was.get(name, value) for name, value in stands.items()}
