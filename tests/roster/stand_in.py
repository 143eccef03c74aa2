"""Stands in for the fit room: a proposal whose numbers follow from the head, and nothing else."""

import numpy as np

from helmwright.anatomy import MEASURE_KEYS, HeadEstimate
from helmwright.catalogue import ModelSheet, load_packaged
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import (
    Build,
    BuildOutlook,
    Chance,
    Fault,
    FaultKind,
    MeasureGain,
    Proposal,
    ShellChance,
    Spread,
    ZoneOutlook,
)

SHEET = load_packaged("ouzel")


def spread(mean: float, half: float) -> Spread:
    return Spread(mean, mean - half, mean + half, mean)


def outlook(
    sheet: ModelSheet,
    build: Build,
    *,
    fits: float,
    found: float,
    changes: tuple[Zone, ...] = (),
    floats: float = 0.01,
    loose: float = 0.1,
    tight: float = 0.05,
    faults: tuple[Fault, ...] = (Fault(FaultKind.LOOSE, Zone.JAW_RIGHT, 0.12),),
) -> BuildOutlook:
    zones = tuple(
        ZoneOutlook(
            zone,
            pad.labels[index],
            pad.thicknesses_mm[index],
            spread(4.0, 2.0),
            spread(2.5, 1.5),
            spread(8.0, 5.0),
            loose,
            tight,
        )
        for zone, pad, index in zip(ZONES, sheet.pads, build.pads, strict=True)
    )
    return BuildOutlook(
        build,
        Chance(fits, 0.01),
        Chance(found, 0.01),
        changes,
        zones,
        spread(25.4, 5.0),
        spread(0.0, 2.0),
        spread(1.8, 0.5),
        spread(1.0, 0.5),
        floats,
        faults,
    )


def stand_in(
    estimate: HeadEstimate,
    sheet: ModelSheet,
    *,
    rng: np.random.Generator,
    current: Build | None = None,
    suits: bool = True,
) -> Proposal:
    """The delivered build of the shell that the chart names, with one front pad changed."""
    tape = estimate.draw(200, rng).of("tape_circumference")
    shares = [
        (float(np.mean((tape >= s.chart_low_mm) & (tape < s.chart_high_mm))), s.number)
        for s in sheet.shells
    ]
    shells = tuple(ShellChance(n, c) for c, n in sorted(shares, reverse=True) if c > 0)
    number = shells[0].shell
    delivered = Build(number, sheet.delivered)
    front = ZONES.index(Zone.FRONT)
    changed = Build(number, (*delivered.pads[:front], 3, *delivered.pads[front + 1 :]))
    start = current if current is not None and current.shell == number else delivered
    fits = 0.4 + 0.02 * len(estimate.read)
    missing = [key for key in MEASURE_KEYS if key not in estimate.read]
    return Proposal(
        sheet.model,
        shells,
        (
            outlook(
                sheet, changed, fits=fits, found=0.7 * fits, changes=changed.changes_from(start)
            ),
            outlook(
                sheet,
                delivered,
                fits=0.9 * fits,
                found=0.6 * fits,
                changes=delivered.changes_from(start),
            ),
        ),
        outlook(sheet, delivered, fits=0.2, found=0.12, loose=0.3),
        tuple(MeasureGain(key, 0.11 - 0.01 * at, 0.01) for at, key in enumerate(missing)),
        0.9 if suits else 0.2,
        2000,
    )
