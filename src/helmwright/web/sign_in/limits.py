"""How often each door may be tried."""

from datetime import timedelta
from uuid import UUID

from helmwright.records.knocks import Limit

QUARTER = timedelta(minutes=15)


def of_password(address: str) -> list[Limit]:
    """Whatever names are tried; axes counts each name from each address beside it."""
    return [Limit("password", address, 50, QUARTER)]


def of_pin(device: UUID, staff: UUID) -> list[Limit]:
    """Five guesses a person and device, and fifteen a device whoever is guessed."""
    return [Limit("pin", f"{device} {staff}", 5, QUARTER), Limit("pin", f"{device}", 15, QUARTER)]


def of_code(address: str) -> list[Limit]:
    """Ten codes an address, and forty from everywhere: some 1 in 400,000 that one is guessed."""
    return [Limit("code", address, 10, QUARTER), Limit("code", "everywhere", 40, QUARTER)]
