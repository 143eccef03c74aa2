"""Which helmet is at hand in a visit, what lies in it and in the others, and what moved between."""

from dataclasses import dataclass, replace

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import Build
from helmwright.visit.event import Started
from helmwright.visit.state import TryOn, Visit


@dataclass(frozen=True, slots=True)
class AtHand:
    """The helmets of a visit, as far as it knows of them.

    Parameters
    ----------
    delivered
        The pads that shells arrive with.
    helmet
        What lies in the helmet at hand; None where none is.
    told
        What lies in each further helmet that nobody has taken up in this visit.
    set_back
        What lies in each that was taken up and set back for another, the last one last.
    changed
        For every try-on, what lay in its helmet before, and the build that was made of it.
    fetched
        Shells that were taken up as they are delivered, beside those told.
    """

    delivered: tuple[int, ...]
    helmet: Build | None = None
    told: tuple[Build, ...] = ()
    set_back: tuple[Build, ...] = ()
    changed: tuple[tuple[Build, Build], ...] = ()
    fetched: tuple[int, ...] = ()

    @classmethod
    def of(cls, started: Started, sheet: ModelSheet) -> "AtHand":
        """The helmets as a visit begins."""
        return cls(sheet.delivered, started.current, started.helmets)

    @property
    def others(self) -> tuple[Build, ...]:
        """What lies in every helmet but the one at hand."""
        return (*self.told, *self.set_back)

    @property
    def lying(self) -> tuple[Build, ...]:
        """What lies in every helmet; of each shell the one that would be taken up comes last.

        That is as `lies_for` says, for the delivered build of the shell.
        """

        def changed(lies: Build) -> tuple[int, Build]:
            return len(lies.changes_from(Build(lies.shell, self.delivered))), lies

        told = sorted(self.told, key=changed, reverse=True)
        return (*told, *self.set_back, *([self.helmet] if self.helmet else []))

    def lies_for(self, build: Build) -> Build:
        """What lies in the helmet that is taken up for a build, where nobody says.

        The helmet at hand where it has the build's shell; else the one of that shell that was set
        back last; else, of those told, the one that takes the fewest changes; else one as
        delivered.
        """
        if self.helmet is not None and self.helmet.shell == build.shell:
            return self.helmet
        back = [lies for lies in self.set_back if lies.shell == build.shell]
        if back:
            return back[-1]
        told = [lies for lies in self.told if lies.shell == build.shell]
        plain = Build(build.shell, self.delivered)
        return min(told, key=lambda lies: (len(build.changes_from(lies)), lies), default=plain)

    def put_on(self, build: Build, lay: Build | None = None) -> "AtHand":
        """The helmets once a build is on the head.

        Parameters
        ----------
        build
            Which.
        lay
            What lay in its helmet as it was taken up; as `lies_for` says where None.
        """
        lies = lay or self.lies_for(build)
        taken = self if lies == self.helmet else _taken_up(self._with_it_set_back(), lies)
        return replace(taken, helmet=build, changed=(*self.changed, (lies, build)))

    def _with_it_set_back(self) -> "AtHand":
        back = () if self.helmet is None else (self.helmet,)
        return replace(self, set_back=(*self.set_back, *back), helmet=None)


def at_hand(visit: Visit, sheet: ModelSheet) -> AtHand:
    """The helmets where a visit stands: a fold over its try-ons."""
    there = AtHand.of(visit.started, sheet)
    for tried in visit.try_ons:
        there = there.put_on(tried.build, tried.lay)
    return there


def before_try_on(visit: Visit, tried: TryOn, sheet: ModelSheet) -> AtHand:
    """The helmets as a build was put on."""
    earlier = visit.try_ons[: tried.number - 1]
    return at_hand(replace(visit, try_ons=earlier), sheet)


def _taken_up(there: AtHand, lies: Build) -> AtHand:
    """Without the helmet that is taken up; one that nobody told of came from elsewhere."""
    if lies in there.set_back:
        return replace(there, set_back=_less(there.set_back, lies))
    if lies in there.told:
        return replace(there, told=_less(there.told, lies))
    fetched = (lies.shell,) if lies.pads == there.delivered else ()
    return replace(there, fetched=(*there.fetched, *fetched))


def _less(helmets: tuple[Build, ...], taken: Build) -> tuple[Build, ...]:
    """Helmets without the last one that has such pads."""
    place = len(helmets) - 1 - helmets[::-1].index(taken)
    return helmets[:place] + helmets[place + 1 :]
