"""What counts as right: the bands of pressure, gap and brow height."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.instruction import FitTopic
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.window import BROW_HIGH, BROW_LOW, LOOSE_BELOW, TIGHT_ABOVE
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

HOT_SPOT = Figure(14.0, "kPa", ASSUMED, note="pressure of one contact above which it is a hot spot")
LARGEST_GAP = Figure(2.0, "mm", ASSUMED, note="largest gap that a contact may have")


@dataclass(frozen=True, slots=True)
class Bands:
    """The limits of a right fit: judgment, until accepted fits replace it.

    Parameters
    ----------
    loose_kpa, tight_kpa
        A zone's mean pressure must lie between these [kPa].
    hot_spot_kpa
        No single contact may press harder [kPa].
    brow_low_mm, brow_high_mm
        The brow height must lie between these [mm].
    gap_mm
        No contact may stand clearer of the head [mm].
    """

    loose_kpa: float = LOOSE_BELOW.value
    tight_kpa: float = TIGHT_ABOVE.value
    hot_spot_kpa: float = HOT_SPOT.value
    brow_low_mm: float = BROW_LOW.value
    brow_high_mm: float = BROW_HIGH.value
    gap_mm: float = LARGEST_GAP.value

    def __post_init__(self) -> None:
        """Refuse bands that nothing can meet."""
        if not 0 < self.loose_kpa < self.tight_kpa <= self.hot_spot_kpa:
            raise ValueError("bands need 0 < loose < tight <= hot spot, in kPa")
        if not 0 < self.brow_low_mm < self.brow_high_mm:
            raise ValueError("bands need 0 < brow low < brow high, in mm")

    @classmethod
    def of(cls, sheet: ModelSheet) -> "Bands":
        """The default limits, with the brow height that the maker's instructions give, if any."""
        said = sheet.instruction(FitTopic.BROW_HEIGHT)
        if said is None or said.accept_mm is None:
            return cls()
        low, high = said.accept_mm
        return cls(brow_low_mm=low, brow_high_mm=high)

    def row(self) -> npt.NDArray[np.float64]:
        """The bands as the kernels take them, shape (6,)."""
        return np.array(
            [
                self.loose_kpa, self.tight_kpa, self.hot_spot_kpa, self.brow_low_mm,
                self.brow_high_mm, self.gap_mm,
            ]
        )  # fmt: skip
