"""The foams that every sheet may name."""

import numpy as np

from helmwright.catalogue.foam import Floats, Foam
from helmwright.sources.records import CUSHION_PU, NIST_VINYL_NITRILE

_CUSHION_LAST_STRAIN = 0.85


def cushion_stress_kpa(strain: Floats) -> Floats:
    """Stress [kPa] of the cushion foam at a strain [1], any shape.

    Notes
    -----
    ``s(e) = 2.0 (1 - exp(-30 e)) + 2.0 e + 0.25 (e / (0.90 - e))^2``, valid below strain 0.90,
    where the cells are crushed flat. Rate, creep and hysteresis are ignored.

    References
    ----------
    Assumed by this project, after the general figures of flexible cushion polyurethane of 25 to
    40 kg/m3: plateau 1 to 5 kPa, crushed from strain 0.6 to 0.8 (from memory).
    """
    crushed = strain / (0.90 - strain)
    return np.asarray(2.0 * (1.0 - np.exp(-30.0 * strain)) + 2.0 * strain + 0.25 * crushed**2)


def _cushion() -> Foam:
    """The cushion law as a table, every half percent of strain, every tenth below 5 percent."""
    strain = np.concatenate(
        [np.arange(0, 50) / 1000, np.arange(10, round(_CUSHION_LAST_STRAIN * 200) + 1) / 200]
    )
    last = _CUSHION_LAST_STRAIN
    slope = 60.0 * np.exp(-30.0 * last) + 2.0 + 0.5 * last * 0.90 / (0.90 - last) ** 3
    return Foam(
        key="cushion",
        strain=tuple(strain.tolist()),
        stress_kpa=tuple(cushion_stress_kpa(strain).tolist()),
        beyond_kpa=float(slope),
        source=CUSHION_PU,
        scatter=0.20,
    )


CUSHION = _cushion()
"""Low-plateau open-cell fit foam, assumed.

Past strain 0.85 it goes on along its tangent there. The scatter is assumed.
"""

VINYL_NITRILE = Foam(
    key="vinyl_nitrile",
    strain=(0.0, 0.02, 0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.49),
    stress_kpa=(0.0, 14.3, 22.0, 30.2, 37.4, 45.9, 57.3, 72.2, 91.6, 118.0, 153.0, 190.0),
    beyond_kpa=925.0,
    source=NIST_VINYL_NITRILE,
    scatter=0.10,
)
"""Closed-cell energy foam, as published.

Nothing is subtracted: the 4.6 kPa that the machine read at zero strain is left out, and the curve
runs straight from nothing to the published point at strain 0.02. Past strain 0.49, the last
measured point, it goes on with the slope of the last measured piece, (190 - 153) / 0.04 kPa. The
scatter is assumed.
"""

BUILT_IN_FOAMS: dict[str, Foam] = {foam.key: foam for foam in (CUSHION, VINYL_NITRILE)}
"""The foams that a sheet may name without defining them, by name."""
