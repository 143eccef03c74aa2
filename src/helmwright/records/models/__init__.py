"""Tables: the ledger, and the projections of it that a page or an act asks."""

from helmwright.records.models.acts import (
    Acknowledgment,
    Doubt,
    Issue,
    Reading,
    Reservation,
    TakeIn,
    TakeInRow,
    Visit,
    VisitStep,
)
from helmwright.records.models.doors import EnrollmentCode, HeardHere, Knock
from helmwright.records.models.ledger import Entry, Outcome, Private
from helmwright.records.models.people import (
    Consent,
    Device,
    Guardian,
    Player,
    Role,
    Season,
    Staff,
    Team,
)
from helmwright.records.models.things import (
    Helmet,
    HelmetBuild,
    Movement,
    Part,
    Sheet,
    Shelf,
    Store,
)

__all__ = [
    "Acknowledgment",
    "Consent",
    "Device",
    "Doubt",
    "EnrollmentCode",
    "Entry",
    "Guardian",
    "HeardHere",
    "Helmet",
    "HelmetBuild",
    "Issue",
    "Knock",
    "Movement",
    "Outcome",
    "Part",
    "Player",
    "Private",
    "Reading",
    "Reservation",
    "Role",
    "Season",
    "Sheet",
    "Shelf",
    "Staff",
    "Store",
    "TakeIn",
    "TakeInRow",
    "Team",
    "Visit",
    "VisitStep",
]
