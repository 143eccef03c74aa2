"""The eight places inside a shell that hold a pad."""

from enum import StrEnum


class Zone(StrEnum):
    """A place inside the shell; left and right are the wearer's."""

    CROWN = "crown"
    FRONT = "front"
    REAR = "rear"
    LEFT = "left"
    RIGHT = "right"
    NAPE = "nape"
    JAW_LEFT = "jaw left"
    JAW_RIGHT = "jaw right"

    @property
    def mirrored(self) -> "Zone":
        """The zone seen in a mirror."""
        return _MIRROR.get(self, self)


ZONES: tuple[Zone, ...] = tuple(Zone)
"""Every zone, in the order that builds and arrays use."""

_MIRROR = {
    Zone.LEFT: Zone.RIGHT,
    Zone.RIGHT: Zone.LEFT,
    Zone.JAW_LEFT: Zone.JAW_RIGHT,
    Zone.JAW_RIGHT: Zone.JAW_LEFT,
}
