"""From a roster to a build for every player, on every core of the machine."""

import logging
import os
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor, as_completed
from dataclasses import dataclass
from functools import partial
from hashlib import blake2b
from typing import Protocol

import numpy as np

from helmwright.anatomy import HeadEstimate, MeasurerError, Over, Reading, Touch
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import Build, Proposal
from helmwright.roster.build_now import build_now
from helmwright.roster.cell import CellError
from helmwright.roster.estimate import estimate_player
from helmwright.roster.made_for import made_for_notices
from helmwright.roster.no_guards import no_guard_notices
from helmwright.roster.player import Player, Roster
from helmwright.roster.remark import Remark


class Proposer(Protocol):
    """Whatever turns one head and a sheet into a proposal; the fit room's own, or a stand-in."""

    def __call__(
        self,
        estimate: HeadEstimate,
        sheet: ModelSheet,
        *,
        rng: np.random.Generator,
        current: Build | None = None,
    ) -> Proposal:
        """The proposal for one head."""


@dataclass(frozen=True)
class PlayerAnswer:
    """One player with the estimate of the head and, where it was asked for, the proposal.

    `current` is the build in the helmet now, where somebody said what it is.
    """

    player: Player
    head: HeadEstimate
    proposal: Proposal | None
    current: Build | None = None


@dataclass(frozen=True)
class RosterAnswer:
    """The whole answer, in the order of the roster.

    Parameters
    ----------
    answers
        One for each player that could be answered.
    problems, notices
        What was found in the file and in the heads.
    seed
        The seed that the draws came from.
    sheet
        The model sheet used; None where only heads were asked for.
    measurers
        How well each person who measures does, where the roster says who did.

    """

    answers: tuple[PlayerAnswer, ...]
    problems: tuple[Remark, ...]
    notices: tuple[Remark, ...]
    seed: int
    sheet: ModelSheet | None = None
    measurers: tuple[MeasurerError, ...] = ()

    @property
    def asked(self) -> int:
        """How many rows there were to answer."""
        unanswered = {problem.row for problem in self.problems}
        return len(self.answers) + len(unanswered - {a.player.row for a in self.answers})


def own_proposer() -> Proposer:
    """The fit room's proposer; imported when it is needed, because it loads compiled kernels."""
    from helmwright.fit import propose  # noqa: PLC0415

    return propose


def close_proposer() -> Proposer:
    """The same with a close look at what drives every chance, for one player at a time."""
    from helmwright.fit import CLOSE_LOOK, propose  # noqa: PLC0415

    return partial(propose, effort=CLOSE_LOOK)


def answer_player(
    player: Player, sheet: ModelSheet, *, seed: int, propose: Proposer | None = None
) -> PlayerAnswer:
    """The answer for one player; the draws follow from the seed and what is known of the head.

    Raises
    ------
    CellError
        Where the build that is said to be in the helmet now is none of the sheet's.

    """
    rng = np.random.default_rng([seed, _digest(player)])
    head = estimate_player(player)
    current = build_now(player.build_now, sheet, head)
    proposal = (propose or own_proposer())(head, sheet, rng=rng, current=current)
    return PlayerAnswer(player, head, proposal, current)


def _digest(player: Player) -> int:
    """A number that is the same wherever the same head is asked for, in a roster or by itself."""
    readings = sorted(_said(reading) for reading in player.readings)
    known: tuple[object, ...] = (str(player.sex), player.stature_mm, player.weight_kg, readings)
    if player.age_years is not None or player.ages is not None:
        known += (player.age_years, player.ages)
    if any(reading.months_ago for reading in player.readings):
        known += (sorted((r.measure, r.value_mm, r.months_ago) for r in player.readings),)
    if set(player.worn or ()) - {Over.BARE, Over.UNSTATED}:
        known += (player.worn,)
    return int.from_bytes(blake2b(repr(known).encode(), digest_size=8).digest())


def _said(reading: Reading) -> tuple[str, str, float]:
    """A reading as far as it is known; who took it is no part of the head."""
    named = [kind.value for kind in reading.kinds if kind is not Over.UNSTATED]
    over = "+".join(named) or "bare"
    light = " light" if reading.touch is Touch.LIGHT else ""
    return reading.measure, over + light, reading.value_mm


def answer_roster(
    roster: Roster,
    sheet: ModelSheet,
    *,
    seed: int,
    propose: Proposer | None = None,
    workers: int | None = None,
    tick: Callable[[], None] = lambda: None,
    closely: bool = False,
) -> RosterAnswer:
    """The answer for every player, in the order of the roster.

    Players are independent of one another, so that neither the number of workers nor a row
    put right elsewhere changes anybody's answer. `tick` is called once for each player done.
    Where one cannot be answered, a problem says why, and the others are answered all the same.
    `closely` counts for every build of an answer what drives its chances, not for the best alone.
    """
    chosen = close_proposer() if closely and propose is None else propose
    pool = ThreadPoolExecutor(workers or os.cpu_count() or 1)
    try:
        jobs = [
            pool.submit(_answered, player, sheet, seed=seed, propose=chosen)
            for player in roster.players
        ]
        _follow(jobs, tick)
        done = [job.result() for job in jobs]
    finally:
        # Nothing is left to wait for, unless somebody stopped it; then nobody wants to wait.
        pool.shutdown(wait=False, cancel_futures=True)
    answers = tuple(each for each in done if isinstance(each, PlayerAnswer))
    failed = (each for each in done if isinstance(each, Remark))
    problems = sorted((*roster.problems, *failed), key=lambda problem: problem.row)
    notices = (
        *roster.notices,
        *made_for_notices(roster.players, sheet),
        *no_guard_notices(roster.players, sheet),
    )
    return RosterAnswer(answers, tuple(problems), notices, seed, sheet, measurers=roster.measurers)


def _follow(jobs: list[Future[PlayerAnswer | Remark]], tick: Callable[[], None]) -> None:
    """Waits for the jobs, and says when each is done."""
    for _ in as_completed(jobs):
        tick()


def _answered(
    player: Player, sheet: ModelSheet, *, seed: int, propose: Proposer | None
) -> PlayerAnswer | Remark:
    """The player's answer, or why there is none; what is a defect of the program is logged."""
    try:
        return answer_player(player, sheet, seed=seed, propose=propose)
    except CellError as error:
        return Remark(
            player.row,
            "build now",
            player.build_now,
            error.wrong,
            error.right,
            player.label,
            player.number,
        )
    except Exception as error:
        logging.getLogger(__name__).exception("helmwright: a defect in %s", player.label)
        return Remark(
            player.row,
            "",
            "",
            f"a defect of the program kept it from an answer ({type(error).__name__}: {error})",
            "Report it, with the row",
            player.label,
            player.number,
        )
