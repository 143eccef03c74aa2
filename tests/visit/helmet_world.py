"""A little world of helmets, drawers and pads, moved one by one: what a visit should count."""

from collections import Counter
from copy import deepcopy
from itertools import permutations, product

from helmwright.catalogue import ZONES
from helmwright.fit.outlook import Build
from tests.visit.scripts import OUZEL

SERVES = {"left": "sides", "right": "sides", "jaw left": "jaw", "jaw right": "jaw"}


class Helmet:
    """One helmet, with a pad in every zone."""

    def __init__(self, build: Build) -> None:
        self.shell, self.pads = build.shell, dict(zip(map(str, ZONES), build.pads, strict=True))

    @property
    def build(self) -> Build:
        """What lies in it."""
        return Build(self.shell, tuple(self.pads[zone] for zone in map(str, ZONES)))


class World:
    """Helmets, the one at hand among them, and drawers with loose pads."""

    def __init__(
        self, helmets: list[Build], drawers: dict[tuple[str, str], int], at_hand: int | None
    ) -> None:
        self.helmets = [Helmet(each) for each in helmets]
        self.drawers = {name: ["pad"] * count for name, count in drawers.items()}
        self.at_hand = None if at_hand is None else self.helmets[at_hand]

    def copy(self) -> "World":
        """The world as it is now, to come back to."""
        return deepcopy(self)

    def put_on(self, helmet: Helmet, build: Build) -> None:
        """Change its pads one by one; a pad that is in no drawer was in somebody's pocket."""
        wanted = dict(zip(map(str, ZONES), build.pads, strict=True))
        changed = [zone for zone, pad in helmet.pads.items() if wanted[zone] != pad]
        for zone in changed:
            self._lay_down(zone, helmet.pads[zone])
        for zone in changed:
            for drawer in self._in_reach(zone, wanted[zone]):
                if self.drawers.get(drawer):
                    self.drawers[drawer].pop()
                    break
            helmet.pads[zone] = wanted[zone]
        self.at_hand = helmet

    def others(self) -> list[Build]:
        """What lies in the helmets that are not at hand."""
        return sorted(each.build for each in self.helmets if each is not self.at_hand)

    def loose(self) -> Counter[tuple[str, str]]:
        """Pads in drawers."""
        return Counter({name: len(pads) for name, pads in self.drawers.items() if pads})

    def pads(self) -> Counter[tuple[str, str]]:
        """All pads, wherever they are, left and right alike."""
        there: Counter[tuple[str, str]] = Counter()
        for (place, label), count in self.loose().items():
            there[SERVES.get(place, place), label] += count
        for helmet in self.helmets:
            for zone, pad in helmet.pads.items():
                there[SERVES.get(zone, zone), _label(zone, pad)] += 1
        return there

    def can_make(self, build: Build) -> bool:
        """Whether some helmet that may be used for a build can be made into it: all ways tried."""
        hand = self.at_hand
        if hand is not None and hand.shell == build.shell:
            return self._can_become(hand, build)
        return any(self._can_become(each, build) for each in self.helmets if each is not hand)

    def _can_become(self, helmet: Helmet, build: Build) -> bool:
        if helmet.shell != build.shell:
            return False
        tried = self.copy()
        wanted = dict(zip(map(str, ZONES), build.pads, strict=True))
        changed = [zone for zone, pad in helmet.pads.items() if wanted[zone] != pad]
        for zone in changed:
            tried._lay_down(zone, helmet.pads[zone])
        return all(
            tried._can_fill({zone: wanted[zone] for zone in group if zone in changed})
            for group in _GROUPS
        )

    def _can_fill(self, wanted: dict[str, int]) -> bool:
        """Whether any order of zones, each out of any drawer in reach, finds a pad for all."""
        for order in permutations(wanted):
            for drawers in product(*(self._in_reach(zone, wanted[zone]) for zone in order)):
                asked = Counter(drawers)
                if all(len(self.drawers.get(name, ())) >= n for name, n in asked.items()):
                    return True
        return not wanted

    def _in_reach(self, zone: str, pad: int) -> list[tuple[str, str]]:
        places = [zone, SERVES[zone]] if zone in SERVES else [zone]
        return [(place, _label(zone, pad)) for place in places]

    def _lay_down(self, zone: str, pad: int) -> None:
        own, shared = (zone, _label(zone, pad)), SERVES.get(zone)
        is_shared = shared in {place for place, _ in self.drawers} and own not in self.drawers
        name = (shared, own[1]) if is_shared and shared else own
        self.drawers.setdefault(name, []).append("pad")


_GROUPS = [
    ("crown",),
    ("front",),
    ("rear",),
    ("nape",),
    ("left", "right"),
    ("jaw left", "jaw right"),
]


def _label(zone: str, pad: int) -> str:
    return next(kind.labels[pad] for kind in OUZEL.pads if kind.zone == zone)
