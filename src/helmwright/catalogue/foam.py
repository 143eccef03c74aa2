"""A foam as a table of strain and stress that never falls."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.sources import Source

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Foam:
    """One foam's slow compression curve.

    Stress is linear between the points, and past the last one it goes on along `beyond_kpa`, the
    slope [kPa per unit strain] stated for that purpose, so that it rises at every strain.

    Parameters
    ----------
    key
        Its name in model sheets.
    strain, stress_kpa
        Points of the curve [1], [kPa]; the first is (0, 0).
    beyond_kpa
        Slope past the last point [kPa].
    source
        Where the curve comes from.
    scatter
        Relative standard deviation of stress from piece to piece [1].
    """

    key: str
    strain: tuple[float, ...]
    stress_kpa: tuple[float, ...]
    beyond_kpa: float
    source: Source
    scatter: float

    def __post_init__(self) -> None:
        """Refuse a curve that falls, or that does not start from nothing."""
        strain, stress = np.asarray(self.strain), np.asarray(self.stress_kpa)
        if strain.shape != stress.shape or strain.size < 2:
            raise ValueError(f"foam {self.key}: strain and stress need the same number of points")
        if strain[0] != 0.0 or stress[0] != 0.0:
            raise ValueError(f"foam {self.key}: the first point must be strain 0, stress 0")
        if np.any(np.diff(strain) <= 0) or np.any(np.diff(stress) <= 0) or self.beyond_kpa <= 0:
            raise ValueError(f"foam {self.key}: strain and stress must rise from point to point")

    def strain_at(self, stress_kpa: Floats) -> Floats:
        """Strain [1] under a stress [kPa], of the same shape; zero under zero."""
        inside = np.interp(stress_kpa, self.stress_kpa, self.strain)
        past = np.maximum(np.asarray(stress_kpa) - self.stress_kpa[-1], 0.0) / self.beyond_kpa
        return np.asarray(inside + past, dtype=np.float64)
