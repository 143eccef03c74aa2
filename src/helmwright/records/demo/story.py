"""The story that the demo room tells. Everybody and everything in it is invented.

The Kingfishers of Tamarack Valley College are two and a half hours into their fitting day. Two
stations stand in the equipment room, two at the cart in the hall. A few are done, one has still to
sign, one is fitted by nothing that lies at the cart, one went to class while a pad is looked for,
two are being fitted now.
"""

from dataclasses import dataclass
from enum import StrEnum

from helmwright.records.models import Role

TEAM = "Tamarack Valley College Kingfishers"
SEASON = "Fall"
MODEL = "ouzel"

ROOM, CART, TRUNK = "Equipment room", "Hall cart", "Travel trunk"
STORES = (ROOM, CART, TRUNK)


@dataclass(frozen=True, slots=True)
class Member:
    """Somebody on the staff, with what they sign in with in the demo."""

    username: str
    name: str
    role: Role
    pin: str = ""


PASSWORD = "kingfisher demo"  # noqa: S105 - printed at every start; only a demo room has it

STAFF = (
    Member("osprey", "Osprey Millbank", Role.MANAGER, "4719"),
    Member("dunlin", "Dunlin Harborside", Role.FITTER, "2705"),
    Member("whimbrel", "Whimbrel Stonebed", Role.FITTER, "8140"),
    Member("curlew", "Curlew Ashbank", Role.FITTER, "6382"),
    Member("pintail", "Pintail Reedmere", Role.FITTER, "9057"),
    Member("bittern", "Bittern Sandrun", Role.STUDENT, "3514"),
    Member("merlin", "Merlin Highmeadow", Role.TRAINER),
    Member("siskin", "Siskin Larchgrove", Role.VIEWER),
)
MANAGER, MEASURER, STUDENT = "osprey", "dunlin", "bittern"


@dataclass(frozen=True, slots=True)
class Lot:
    """Helmets of one shell that came together.

    Parameters
    ----------
    shell, count
        Which, and how many.
    bought
        Years before this one.
    recertified
        Months ago; None where they were never sent.
    cart, trunk
        How many of them lie there; the others lie in the room.
    """

    shell: int
    count: int
    bought: int
    recertified: int | None
    cart: int = 0
    trunk: int = 0


LOTS = (
    Lot(2, 3, bought=3, recertified=7, cart=1),
    Lot(2, 3, bought=1, recertified=None, cart=1, trunk=1),
    Lot(3, 8, bought=4, recertified=7, cart=3),
    Lot(3, 8, bought=1, recertified=None, cart=4, trunk=1),
    Lot(3, 2, bought=6, recertified=29),
    Lot(4, 10, bought=3, recertified=7, cart=4),
    Lot(4, 8, bought=1, recertified=None, cart=4, trunk=2),
    Lot(4, 2, bought=7, recertified=30),
    Lot(5, 5, bought=4, recertified=7, cart=2),
    Lot(5, 4, bought=1, recertified=None, cart=2, trunk=1),
    Lot(6, 4, bought=2, recertified=8, cart=1, trunk=1),
    Lot(4, 3, bought=11, recertified=8),
)
"""Sixty helmets: the fifth and the eighth lots have lapsed, the last is beyond its life."""

FIRST_CODE = 101
COLOR = "slate"

HELD = ("TV-0104", "crack beside the front screw; a second person looks at it")


class Ending(StrEnum):
    """How far a visit has come by now."""

    ISSUED = "issued"
    FITTED = "fitted, not signed"
    NO_BUILD = "nothing of what is here fits"
    PAUSED = "paused, a part is looked for"
    CHECKED = "in the checks of the first try-on"
    PROPOSED = "a build is proposed, nothing is on yet"


@dataclass(frozen=True, slots=True)
class Turn:
    """A player at a station: who, how long ago it began [min], and how far it has come."""

    number: str
    minutes_ago: int
    ending: Ending


@dataclass(frozen=True, slots=True)
class Station:
    """One enrolled tablet on the day: where it stands, who fits there, and who came."""

    name: str
    store: str
    fitter: str
    turns: tuple[Turn, ...]


STATIONS = (
    Station(
        "Station 1",
        ROOM,
        "dunlin",
        (
            Turn("7", 148, Ending.ISSUED),
            Turn("84", 52, Ending.FITTED),
        ),
    ),
    Station(
        "Station 2",
        ROOM,
        "whimbrel",
        (Turn("86", 131, Ending.ISSUED), Turn("66", 64, Ending.PAUSED)),
    ),
    Station(
        "Station 3",
        CART,
        "curlew",
        (Turn("52", 96, Ending.NO_BUILD), Turn("97", 9, Ending.CHECKED)),
    ),
    Station("Station 4", CART, "pintail", (Turn("93", 4, Ending.PROPOSED),)),
)

SPARE_STATION = "Station 5"
"""What a browser is called that is enrolled in the demo."""

LAST_WEEK = {"90": "TV-0126", "55": "TV-0107", "44": "TV-0101"}
"""Issued some days ago, before there were visits: the number, and the helmet's code."""

UNMEASURED = frozenset({"3", "19", "41"})
"""Of the demo roster: nobody has taped them yet."""


@dataclass(frozen=True, slots=True)
class Newcomer:
    """On the roster without a reading: the row could not be read, or somebody came today."""

    number: str
    name: str
    position: str


NEWCOMERS = (Newcomer("28", "Brook Oxbowe", "RB"), Newcomer("", "Veery Marshlight", ""))
