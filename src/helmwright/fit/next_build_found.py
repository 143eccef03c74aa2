"""What a try-on said, as far as it points to another build."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property

from helmwright.catalogue.zone import Zone
from helmwright.fit.finding import Finding, Grade, Sign

RING = (Zone.FRONT, Zone.REAR, Zone.LEFT, Zone.RIGHT)


_AT_REST = frozenset({Sign.PUT_ON, Sign.EARS, Sign.TURN, Sign.NOD, Sign.HOT_SPOT})


@dataclass(frozen=True)
class Found:
    """What was found on one build.

    Parameters
    ----------
    zones
        How each zone came out; those that were not looked at are left out.
    brow
        How the brow came out.
    hot
        Zones with a hot spot; they count as tight.
    also
        What else was wrong that the helmet at rest tells of: checks beside brow and zones.
    whole
        Whether the helmet as a whole was too loose or too tight, by how it went on and turned.
    """

    zones: dict[Zone, Grade] = field(default_factory=dict)
    brow: Grade = Grade.RIGHT
    whole: Grade = Grade.RIGHT
    hot: frozenset[Zone] = frozenset()
    also: tuple[tuple[Sign, Zone | None], ...] = ()

    @classmethod
    def of(cls, findings: Iterable[Finding]) -> "Found":
        """That of the answers on one build, repeats included.

        Notes
        -----
        Of an odd number of answers to one check the middle one stands; of an even number the last.
        A hot spot counts as a tight zone, whatever else was found there.
        """
        looks: defaultdict[tuple[Sign, Zone | None], list[Grade]] = defaultdict(list)
        for each in findings:
            looks[each.sign, each.zone].append(each.grade)
        stands = {key: _standing(grades) for key, grades in looks.items()}
        zones = {z: g for (sign, z), g in stands.items() if sign is Sign.ZONE and z is not None}
        hot = {
            zone
            for (sign, zone), grade in stands.items()
            if sign is Sign.HOT_SPOT and zone is not None and grade is Grade.OVER
        }
        zones.update(dict.fromkeys(hot, Grade.OVER))
        whole = [stands.get((sign, None), Grade.RIGHT) for sign in (Sign.PUT_ON, Sign.TURN)]
        return cls(
            zones=zones,
            brow=stands.get((Sign.BROW, None), Grade.RIGHT),
            whole=next((grade for grade in whole if grade is not Grade.RIGHT), Grade.RIGHT),
            hot=frozenset(hot),
            also=tuple(
                key for key, g in stands.items() if key[0] in _AT_REST and g is not Grade.RIGHT
            ),
        )

    @cached_property
    def wrong(self) -> dict[Zone, Grade]:
        """The zones found loose or tight."""
        return {zone: grade for zone, grade in self.zones.items() if grade is not Grade.RIGHT}

    @cached_property
    def snug(self) -> frozenset[Zone]:
        """Zones whose pad was found right, and that no other finding asks to change.

        The crown pad sets the brow height: where that is wrong the crown is not among them.
        """
        right = {zone for zone, grade in self.zones.items() if grade is Grade.RIGHT}
        return frozenset(right if self.brow is Grade.RIGHT else right - {Zone.CROWN})

    def ring(self, grade: Grade) -> int:
        """How many zones of the ring came out so; all where the whole helmet did."""
        if self.whole is grade:
            return len(RING)
        return sum(self.zones.get(zone) is grade for zone in RING)


def _standing(grades: list[Grade]) -> Grade:
    return sorted(grades)[len(grades) // 2] if len(grades) % 2 else grades[-1]
