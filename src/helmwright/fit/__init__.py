"""Fit: a head estimate against a model sheet, by contact mechanics over possible heads."""

from helmwright.fit.outlook import (
    Build,
    BuildOutlook,
    Chance,
    Fault,
    FaultKind,
    InsideGain,
    MeasureGain,
    Proposal,
    ShellChance,
    SizeRisk,
    Spread,
    ZoneOutlook,
)
from helmwright.fit.proposal import ForbiddenBuildError, propose
from helmwright.fit.rater import Rater
from helmwright.fit.search import Effort
from helmwright.fit.verdict import Bands

__all__ = [
    "Bands",
    "Build",
    "BuildOutlook",
    "Chance",
    "Effort",
    "Fault",
    "FaultKind",
    "ForbiddenBuildError",
    "InsideGain",
    "MeasureGain",
    "Proposal",
    "Rater",
    "ShellChance",
    "SizeRisk",
    "Spread",
    "ZoneOutlook",
    "propose",
]
