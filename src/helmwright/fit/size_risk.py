"""Whether the reading gives the shell that the head itself would give."""

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import Combined, HeadEstimate, Touch, combined
from helmwright.anatomy.covering import nominal_over
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.chart import charted_shell
from helmwright.fit.outlook import SizeRisk

Floats = npt.NDArray[np.float64]

_TAPE = "tape_circumference"


def size_risk(estimate: HeadEstimate, sheet: ModelSheet, tape_mm: Floats) -> SizeRisk | None:
    """The chance that the chart gives this reading another shell than the head itself.

    Parameters
    ----------
    estimate
        The head, with its readings.
    sheet
        The model, for its chart.
    tape_mm
        Draws of the tape over what will be worn, without reading error, shape (n,) [mm].

    Returns
    -------
    SizeRisk; None where no tape was read.

    Notes
    -----
    The reading is the mean of the tape's latest readings, each weighed by how many it stands for
    and carried over to what will be worn by the nominal thicknesses. The chance is the share of the
    possible heads, given everything that was read, whose own tape falls to another shell. Over
    many heads of a population it comes to the chance that an error puts a head into the wrong
    band.
    """
    read = read_tape(estimate)
    if read is None:
        return None
    shell = int(charted_shell(sheet, np.array([read]))[0])
    given = charted_shell(sheet, tape_mm)
    others = given[given != shell]
    numbers, counts = np.unique(others, return_counts=True)
    likeliest = int(numbers[np.argmax(counts)]) if others.size else shell
    return SizeRisk(shell, likeliest, float(others.size / given.size), read)


def read_tape(estimate: HeadEstimate) -> float | None:
    """What the tape reads over what will be worn, as the chart would be asked [mm]."""
    read = [group for group in combined(estimate.readings) if group.measure == _TAPE]
    latest = min((group.months_ago for group in read), default=0.0)
    groups = [group for group in read if group.months_ago == latest]
    drawn = [group for group in groups if group.touch is Touch.DRAWN_IN] or groups
    if not drawn:
        return None
    worn, _ = nominal_over(_TAPE, estimate.worn, Touch.DRAWN_IN)
    values = [group.value_mm + worn - _under(group) for group in drawn]
    return float(np.average(values, weights=[group.count for group in drawn]))


def _under(group: Combined) -> float:
    return nominal_over(_TAPE, group.kinds, group.touch)[0]
