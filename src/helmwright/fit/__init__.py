"""Fit: a head estimate against a model sheet, by contact mechanics over possible heads."""

from helmwright.fit.outlook import (
    Assumption,
    Build,
    BuildOutlook,
    Chance,
    Driver,
    Fault,
    FaultKind,
    InsideGain,
    MeasureGain,
    Proposal,
    ShellChance,
    Shift,
    SizeRisk,
    Spread,
    ZoneOutlook,
    strongest,
)
from helmwright.fit.proposal import ForbiddenBuildError, propose
from helmwright.fit.rater import Rater
from helmwright.fit.search import CLOSE_LOOK, Effort
from helmwright.fit.verdict import Bands

__all__ = [
    "CLOSE_LOOK",
    "Assumption",
    "Bands",
    "Build",
    "BuildOutlook",
    "Chance",
    "Driver",
    "Effort",
    "Fault",
    "FaultKind",
    "ForbiddenBuildError",
    "InsideGain",
    "MeasureGain",
    "Proposal",
    "Rater",
    "ShellChance",
    "Shift",
    "SizeRisk",
    "Spread",
    "ZoneOutlook",
    "propose",
    "strongest",
]
