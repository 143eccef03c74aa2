"""The clock, read at the edge and handed on."""

from datetime import datetime

from django.utils import timezone


def now() -> datetime:
    """What time it is."""
    return timezone.now()
