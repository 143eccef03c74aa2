"""Why a build, in words and numbers: chances as they were stated, pads zone by zone."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString

from helmwright.catalogue.zone import Zone
from helmwright.drawing import NUMBERS
from helmwright.records.readers.last_build import LastBuild
from helmwright.reports.chances import hundredths
from helmwright.web.desk.part_words import size_words


@dataclass(frozen=True, slots=True)
class PadLine:
    """One zone's pad."""

    number: int
    zone: str
    label: SafeString


@dataclass(frozen=True, slots=True)
class BuildTold:
    """A build, and why.

    Parameters
    ----------
    last
        From the records.
    found_right, fits
        Of a hundred heads that read like this one.
    minutes
        What changing to it and a try-on should take.
    pads
        By the zones' numbers.
    """

    last: LastBuild
    shell: int
    found_right: str
    fits: str
    minutes: str
    why: str
    pads: tuple[PadLine, ...]


def build_told(last: LastBuild) -> BuildTold:
    """The last build in words."""
    said = last.proposed
    return BuildTold(
        last=last,
        shell=last.build["shell"],
        found_right=hundredths(said["found_right"]),
        fits=hundredths(said["fits"]),
        minutes=f"{said['minutes']:.0f}",
        why=said["why"],
        pads=pad_lines(last.build.get("pads", {})),
    )


def pad_lines(pads: Mapping[str, Any]) -> tuple[PadLine, ...]:
    """Each zone's pad by its label, in the order of the drawing's numbers."""
    lines = [
        PadLine(NUMBERS[Zone(zone)], zone, size_words(pad["pad"], pad.get("mm")))
        for zone, pad in pads.items()
    ]
    return tuple(sorted(lines, key=lambda line: line.number))
