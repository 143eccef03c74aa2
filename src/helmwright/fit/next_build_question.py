"""What is asked for the next build, and what each build would cost."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import Zone
from helmwright.fit.minutes import Minutes
from helmwright.fit.next_build_found import Found
from helmwright.fit.outlook import Build
from helmwright.fit.search import Allowed
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

SNUG_MARGIN = Figure(
    0.10,
    "1",
    ASSUMED,
    note="share of the expected minutes that must be saved for each pad changed that was snug",
)


@dataclass(frozen=True)
class Question:
    """What is asked of a belief: what is on the head and found there, what was tried, what is here.

    Parameters
    ----------
    sheet
        The model.
    current
        What is in the helmet now.
    found
        What was found on it.
    rejected
        Builds found wrong on this head.
    lies
        What lies in helmets that may be taken; of one shell, its changes count from the last.
    allowed
        Whether the parts of a build are at hand.
    minutes
        What each act takes.
    tried
        What was put on, in the order it was, again and again where it was; the rejected builds in
        their order where none is given.
    """

    sheet: ModelSheet
    current: Build
    found: Found
    rejected: Sequence[Build]
    lies: Sequence[Build]
    allowed: Allowed
    minutes: Minutes
    tried: Sequence[Build] = ()
    _lying: dict[int, Build] = field(default_factory=dict, init=False, repr=False)

    def __post_init__(self) -> None:
        """Note what lies in every shell that was used."""
        used = [*self.lies, *self._put_on, self.current]
        self._lying.update({build.shell: build for build in used})

    @property
    def _put_on(self) -> Sequence[Build]:
        return self.tried or self.rejected

    def lying(self, shell: int) -> Build:
        """What lies in a shell now: what was tried in it last, or what it was delivered with."""
        return self._lying.get(shell, Build(shell, self.sheet.delivered))

    def was_on(self, shell: int) -> bool:
        """Whether a shell has been on this head."""
        return any(build.shell == shell for build in self._put_on)

    def changing(self, build: Build) -> float:
        """Minutes of making a build of what is there [min]."""
        before = self.lying(build.shell)
        fetched = 0.0 if build.shell == self.current.shell else self.minutes.other_shell
        return fetched + self.minutes.changing(before, build, self.sheet)

    def price(self, build: Build) -> float:
        """Minutes of making a build and trying it on [min]."""
        return self.changing(build) + self.minutes.trying(self.sheet)

    def is_open(self, build: Build) -> bool:
        """Whether a build may be proposed."""
        return build not in self.rejected and self.allowed(build)

    def changes(self, build: Build) -> tuple[Zone, ...]:
        """Zones whose pad is changed for a build, from what lies in its shell."""
        return build.changes_from(self.lying(build.shell))

    def touched(self, build: Build) -> tuple[Zone, ...]:
        """Zones whose pad is changed for a build although it was found snug."""
        if build.shell != self.current.shell:
            return ()
        return tuple(zone for zone in self.changes(build) if zone in self.found.snug)

    def is_plain(self, build: Build) -> bool:
        """Whether a build leaves every snug pad alone."""
        return not self.touched(build)

    def charged(self, build: Build) -> float:
        """The price with what is asked for every pad that was found snug [min]."""
        return self.price(build) * (1.0 + SNUG_MARGIN.value) ** len(self.touched(build))
