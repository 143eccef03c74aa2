"""Visits led by one who knows the head: its surface and bumps, not the pads, strap and fitter.

The contact's own error of the brow height stays in the belief: the truth is no contact of ours.
"""

from dataclasses import dataclass, replace

import numpy as np

from helmwright.anatomy import HeadEstimate
from helmwright.fit import Bands, Build, Proposal, Rater
from helmwright.fit.account import account
from helmwright.fit.cloud import Cloud, Floats, Places, draw_cloud
from helmwright.fit.contact import Trial
from helmwright.fit.covering import covered
from helmwright.fit.next_build import next_builds
from helmwright.fit.outlook import ShellChance
from helmwright.fit.proposal import NothingAtHandError
from helmwright.fit.search import Allowed
from helmwright.fit.seating import seat_shell
from helmwright.fit.unknowns import Unknowns
from helmwright.study.known_head import contact_bumps, trial_of, zone_bumps
from helmwright.study.ours import LOOKS, led, played_checks
from helmwright.study.players import Met
from helmwright.study.policies import Policy
from helmwright.study.truth import TrueHead
from helmwright.study.visits import MOST, Visit
from helmwright.visit.guide import Guide
from helmwright.visit.protocol import protocol_for


@dataclass(frozen=True, eq=False)
class KnownCloud(Cloud):
    """Draws of everything but the head, which is known.

    Parameters
    ----------
    truth
        The head.
    """

    truth: TrueHead

    @classmethod
    def around(cls, truth: TrueHead, drawn: Cloud) -> "KnownCloud":
        """The draws with the true head in the place of theirs."""
        return cls(
            drawn.estimate, drawn.sheet, drawn.laws, drawn.bands, drawn.standard, drawn.part_of,
            drawn.bias_sd, truth,
        )  # fmt: skip

    def trial(self, shell: int) -> Trial:
        """One shell of the sheet on the known head; made once."""
        if shell not in self.trials:
            self.trials[shell] = trial_of(
                self.truth, self.sheet, self.laws, shell, self.unknowns_in(shell), self.bands
            )
        return self.trials[shell]

    def unknowns_in(self, shell: int) -> Unknowns:
        """What is not known in one shell: bumps are, but for coverings."""
        count, seat = len(self), seat_shell(self.sheet.shell(shell), self.sheet)
        zone, contact = zone_bumps(self.truth, seat), contact_bumps(self.truth, seat)
        bare = replace(
            self.unknowns,
            zone_mm=np.repeat(zone[None], count, axis=0),
            contact_mm=np.repeat((contact - zone[seat.zones])[None], count, axis=0),
        )
        return covered(bare, self.heads, self.estimate)

    def moved(self, standard: Floats, part_of: Places | None = None) -> "KnownCloud":
        """As many draws elsewhere; the head stays."""
        parts = self.part_of if part_of is None else part_of
        other = replace(self, standard=standard, part_of=parts)
        other.trials.update(
            {k: each.under(unknowns=other.unknowns_in(k)) for k, each in self.trials.items()}
        )
        return other


def by_knowing(met: Met, policy: Policy) -> Visit:
    """A visit led by the guide on what is known, from the delivered build."""
    sheet, truth = met.wearer.sheet, met.wearer.head
    bands = met.wearer.dials.bands(Bands.of(sheet))
    rater = Rater()

    def draw(estimate: HeadEstimate, count: int, rng: np.random.Generator) -> Cloud:
        drawn = draw_cloud(estimate, sheet, count, rng, rater=rater, bands=bands)
        return KnownCloud.around(truth, drawn)

    def seek(
        estimate: HeadEstimate, current: Build | None, allowed: Allowed, rng: np.random.Generator
    ) -> Proposal:
        start = current or met.delivered
        found = next_builds(
            draw(estimate, 1024, rng), start, lies=(start,), rng=rng, allowed=allowed, rater=rater,
            would_measure=False,
        )  # fmt: skip
        if not found.options:
            raise NothingAtHandError("no build of the model is worth a try on this head")
        best, fresh = found.options[0].build, draw(estimate, 1024, rng)
        told = account(fresh.trial(best.shell), best, found.options[0].lying, rater=rater)
        shells = (ShellChance(start.shell, 1.0),)
        return Proposal(sheet.model, shells, (told,), told, (), told.fits.value, len(fresh))

    guide = Guide(
        sheet, played_checks(protocol_for(sheet), bands), looks=LOOKS[policy.looks],
        most_try_ons=MOST, bands=bands, measures=False, propose=seek, draw=draw,
    )  # fmt: skip
    return led(guide, met, policy.measures)
