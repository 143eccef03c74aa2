"""Air: its pressure where one stands, and what a sealed amount of it does elsewhere."""

from dataclasses import dataclass

from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, STANDARD_ATMOSPHERE_1976

SEA_LEVEL_KPA = Figure(101.325, "kPa", STANDARD_ATMOSPHERE_1976, note="air pressure at sea level")
_SEA_LEVEL_K = Figure(288.15, "K", STANDARD_ATMOSPHERE_1976, note="temperature at sea level")
_LAPSE = Figure(0.0065, "K/m", STANDARD_ATMOSPHERE_1976, note="fall of temperature with height")
_GRAVITY = Figure(9.80665, "m/s2", STANDARD_ATMOSPHERE_1976, note="gravity of the standard")
_MOLAR_MASS = Figure(0.0289644, "kg/mol", STANDARD_ATMOSPHERE_1976, note="molar mass of dry air")
_GAS_CONSTANT = Figure(8.31432, "J/mol K", STANDARD_ATMOSPHERE_1976, note="as the standard has it")

ZERO_C_K = 273.15
LOWEST_M, HIGHEST_M = -500.0, 11000.0
"""Elevations for which the pressure is given; above, the standard's next layer begins [m]."""

COLDEST_C, HOTTEST_C = -60.0, 80.0
"""Temperatures of the air in a cell that are answered for [C] (assumed)."""


def standard_pressure_kpa(elevation_m: float) -> float:
    """Air pressure at an elevation by the standard atmosphere [kPa].

    Parameters
    ----------
    elevation_m
        Above the sea, -500 to 11000 [m].

    Raises
    ------
    ValueError
        Outside that.

    Notes
    -----
    ``p = p0 (1 - L h / T0)^(g M / (R L))``, the lowest layer. Weather moves it by some 3 kPa
    either way (from memory); the standard's own temperature is not used for a cell's air.

    References
    ----------
    U.S. Standard Atmosphere, 1976; ISO 2533 has the same lowest layer.
    """
    if not LOWEST_M <= elevation_m <= HIGHEST_M:
        raise ValueError(
            f"an elevation of {elevation_m:g} m is outside {LOWEST_M:g} to {HIGHEST_M:g} m"
        )
    exponent = _GRAVITY.value * _MOLAR_MASS.value / (_GAS_CONSTANT.value * _LAPSE.value)
    share = 1.0 - _LAPSE.value * elevation_m / _SEA_LEVEL_K.value
    return float(SEA_LEVEL_KPA.value * share**exponent)


ROOM_TEMPERATURE = Figure(21.0, "C", ASSUMED, note="air of the room where cells are filled, 70 F")


@dataclass(frozen=True, slots=True)
class Surroundings:
    """The air around a helmet.

    Parameters
    ----------
    temperature_c
        Of the air in its cells [C].
    elevation_m
        Above the sea [m].
    """

    temperature_c: float = ROOM_TEMPERATURE.value
    elevation_m: float = 0.0

    def __post_init__(self) -> None:
        """Refuse air that no helmet is worn in."""
        if not COLDEST_C <= self.temperature_c <= HOTTEST_C:
            raise ValueError(
                f"{self.temperature_c:g} C is outside {COLDEST_C:g} to {HOTTEST_C:g} C "
                "(-76 to 176 F), the temperatures that are answered for"
            )
        standard_pressure_kpa(self.elevation_m)

    @property
    def pressure_kpa(self) -> float:
        """Pressure of the air around [kPa]."""
        return standard_pressure_kpa(self.elevation_m)

    @property
    def temperature_k(self) -> float:
        """Temperature [K]."""
        return self.temperature_c + ZERO_C_K


def rigid_gauge_kpa(gauge_kpa: float, room: Surroundings, field: Surroundings) -> float:
    """Gauge pressure elsewhere of a sealed cell whose volume cannot change [kPa].

    Parameters
    ----------
    gauge_kpa
        Over the air around, where it was filled [kPa].
    room, field
        Where it was filled, and where it is.

    Notes
    -----
    ``(pa1 + p1) / T1 = (pa2 + p2) / T2``, an ideal gas of constant volume. This is the upper
    limit of the change: a cell that can swell or shrink moves less, and one that can do so freely
    not at all. A negative gauge means that no such volume can be kept.
    """
    return sealed_gauge_kpa(gauge_kpa, 1.0, room, field)


def sealed_gauge_kpa(
    gauge_kpa: float, volume_ratio: float, room: Surroundings, field: Surroundings
) -> float:
    """Gauge pressure of sealed air elsewhere and in another volume [kPa].

    Parameters
    ----------
    gauge_kpa
        Over the air around, where it was filled [kPa].
    volume_ratio
        Its volume now over that when it was filled [1].
    room, field
        Where it was filled, and where it is.

    Notes
    -----
    ``(pa1 + p1) V1 / T1 = (pa2 + p2) V2 / T2``. In one place it is Boyle's law: slow pressing
    leaves the air as warm as it was. A blow does not, and is not modeled.
    """
    absolute = (room.pressure_kpa + gauge_kpa) * field.temperature_k / room.temperature_k
    return absolute / volume_ratio - field.pressure_kpa


def free_volume_ratio(gauge_kpa: float, room: Surroundings, field: Surroundings) -> float:
    """Volume elsewhere over volume before of a cell that keeps its gauge pressure [1].

    Notes
    -----
    ``V2 / V1 = (pa1 + p) / (pa2 + p) * T2 / T1``: the other limit, a wall that gives freely.
    """
    absolute = (room.pressure_kpa + gauge_kpa) / (field.pressure_kpa + gauge_kpa)
    return absolute * field.temperature_k / room.temperature_k
