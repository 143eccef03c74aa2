"""What is believed during a fit visit: equally likely draws of head, helmet and fitter."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws, HeadEstimate
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.covering import covered, covering_layers
from helmwright.fit.insides import in_shell
from helmwright.fit.outlook import Build
from helmwright.fit.rater import Rater
from helmwright.fit.seating import PadLaws, pad_laws
from helmwright.fit.unknowns import Unknowns, placed_unknowns, unknown_count
from helmwright.fit.verdict import Bands

Floats = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]
Bits = npt.NDArray[np.bool_]


@dataclass(frozen=True)
class Columns:
    """Where in a cloud's numbers what is.

    Parameters
    ----------
    head, unknowns, insides
        Measures and coverings; what the contact model does not know; insides that nobody measured.
    bias
        This fitter's.
    """

    head: slice
    unknowns: slice
    insides: slice
    bias: int

    @classmethod
    def of(cls, estimate: HeadEstimate, sheet: ModelSheet) -> "Columns":
        """Those of a head and a model."""
        head = len(estimate.drawn_from.names)
        known = head + unknown_count(sheet)
        guessed = 0 if sheet.insides is None else len(sheet.insides.belief.names)
        end = known + guessed
        return cls(slice(head), slice(head, known), slice(known, end), end)

    @property
    def count(self) -> int:
        """How many there are."""
        return self.bias + 1


@dataclass(frozen=True, eq=False)
class Cloud:
    """n equally likely draws of a head, of what the model does not know, and of a fitter's bias.

    Parameters
    ----------
    estimate
        What was believed of the head when the draws were first made.
    sheet, laws, bands
        The model, its pads over what is worn, and what counts as right.
    standard
        Every draw as standard normal numbers, shape (n, c): before anything is found, they are
        independent of one another and of `part_of`, whatever they stand for.
    part_of
        The part of the estimate (a sex and maybe an age) that each head is of, shape (n,).
    bias_sd
        Spread of fitters' biases [1].
    """

    estimate: HeadEstimate
    sheet: ModelSheet
    laws: PadLaws
    bands: Bands
    standard: Floats
    part_of: Places
    bias_sd: float

    def __post_init__(self) -> None:
        """Refuse numbers that are not those of this head and model."""
        wanted = (self.part_of.size, self.columns.count)
        if self.standard.shape != wanted:
            raise ValueError(f"a cloud needs numbers of shape {wanted}, got {self.standard.shape}")

    def __len__(self) -> int:
        return int(self.part_of.size)

    @cached_property
    def columns(self) -> Columns:
        """What stands where in `standard`."""
        return Columns.of(self.estimate, self.sheet)

    @cached_property
    def heads(self) -> HeadDraws:
        """The heads."""
        return self.estimate.placed(self.standard[:, self.columns.head], self.part_of)

    @cached_property
    def unknowns(self) -> Unknowns:
        """What the model does not know, coverings and guessed insides not yet put in."""
        return placed_unknowns(self.sheet, self.standard[:, self.columns.unknowns])

    @cached_property
    def insides(self) -> dict[int, Floats]:
        """How far each guessed shell's numbers are off, by shell, (n, 5) [mm]; empty if none is."""
        if self.sheet.insides is None:
            return {}
        return self.sheet.insides.placed(self.standard[:, self.columns.insides])

    @cached_property
    def felt_bias(self) -> Floats:
        """The fitter's bias of felt pressure, on its logarithm, shape (n,) [1]."""
        return self.standard[:, self.columns.bias] * self.bias_sd

    def trial(self, shell: int) -> Trial:
        """One shell of the sheet on these heads; made once."""
        if shell not in self.trials:
            self.trials[shell] = Trial(
                self.sheet, self.sheet.shell(shell), self.laws, head_shapes(self.heads),
                self.unknowns_in(shell), self.bands,
            )  # fmt: skip
        return self.trials[shell]

    def rest(self, build: Build) -> Rest:
        """One build at rest on all of these heads; found once."""
        if build not in self.rests:
            self.rests[build] = self.trial(build.shell).rest(build)
        return self.rests[build]

    @cached_property
    def trials(self) -> dict[int, Trial]:
        """The shells that were asked for."""
        return {}

    @cached_property
    def rests(self) -> dict[Build, Rest]:
        """The builds that were asked for."""
        return {}

    def unknowns_in(self, shell: int) -> Unknowns:
        """What is not known in one shell, coverings and guessed insides put in."""
        whole = covered(self.unknowns, self.heads, self.estimate)
        return in_shell(whole, self.insides.get(shell))

    def first(self, count: int) -> "Cloud":
        """The first draws alone."""
        return self.chosen(np.arange(min(count, len(self))))

    def keeping(self, shells: set[int]) -> "Cloud":
        """The same draws with what is known of some shells alone."""
        kept = {number: each for number, each in self.trials.items() if number in shells}
        other = _with_trials(replace(self), kept)
        other.rests.update({b: each for b, each in self.rests.items() if b.shell in shells})
        return other

    def chosen(self, which: Places) -> "Cloud":
        """Some of the draws, or some of them several times."""
        other = replace(self, standard=self.standard[which], part_of=self.part_of[which])
        return _with_trials(other, {k: trial.chosen(which) for k, trial in self.trials.items()})

    def moved(self, standard: Floats, part_of: Places | None = None) -> "Cloud":
        """As many draws elsewhere.

        Parameters
        ----------
        standard, part_of
            Their numbers, and their parts where these move.

        Notes
        -----
        Where no head moves, the gaps between heads and shells stay and are not sought anew.
        """
        parts = self.part_of if part_of is None else part_of
        other = replace(self, standard=standard, part_of=parts)
        head = self.columns.head
        stay = np.array_equal(parts, self.part_of) and np.array_equal(
            standard[:, head], self.standard[:, head]
        )
        if stay:
            return _with_trials(
                other,
                {k: each.under(unknowns=other.unknowns_in(k)) for k, each in self.trials.items()},
            )
        return _with_trials(
            other,
            {
                k: each.on(head_shapes(other.heads), other.unknowns_in(k))
                for k, each in self.trials.items()
            },
        )

    def taking(self, other: "Cloud", taken: Bits) -> "Cloud":
        """Another cloud's draws where taken, shape (n,)."""
        merged = replace(
            self,
            standard=np.where(taken[:, None], other.standard, self.standard),
            part_of=np.where(taken, other.part_of, self.part_of),
        )
        both = self.trials.keys() & other.trials.keys()
        return _with_trials(
            merged, {k: self.trials[k].taking(other.trials[k], taken) for k in both}
        )


def _with_trials(cloud: Cloud, trials: dict[int, Trial]) -> Cloud:
    cloud.trials.update(trials)
    return cloud


def draw_cloud(
    estimate: HeadEstimate,
    sheet: ModelSheet,
    count: int,
    rng: np.random.Generator,
    *,
    rater: Rater,
    bands: Bands | None = None,
    laws: PadLaws | None = None,
) -> Cloud:
    """Draw what is believed before the helmet is on.

    Parameters
    ----------
    estimate, sheet
        The head and the model.
    count
        How many draws.
    rng
        The random generator.
    rater
        Who will check: its bias is drawn too.
    bands, laws
        What counts as right, by default as the sheet says; the pads' laws, where they are at hand.
    """
    known = laws or pad_laws(sheet, zones_over=covering_layers(estimate))
    return Cloud(
        estimate=estimate,
        sheet=sheet,
        laws=known,
        bands=bands or Bands.of(sheet),
        standard=rng.standard_normal((count, Columns.of(estimate, sheet).count)),
        part_of=estimate.drawn_from.draw_parts(count, rng),
        bias_sd=rater.felt_bias,
    )
