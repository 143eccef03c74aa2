"""Planning: how many parts those still to be fitted will want, and when a day is done."""

from helmwright.planning.day import Minutes, Place, Planned, planned, wanted_until
from helmwright.planning.need import Share, interval, more_than, need_pmf
from helmwright.planning.outlook import Outlook, outlook
from helmwright.planning.wanted import Held, Key, learned, pool_places, taken

__all__ = [
    "Held",
    "Key",
    "Minutes",
    "Outlook",
    "Place",
    "Planned",
    "Share",
    "interval",
    "learned",
    "more_than",
    "need_pmf",
    "outlook",
    "planned",
    "pool_places",
    "taken",
    "wanted_until",
]
