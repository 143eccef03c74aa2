"""Which question of a round comes next, and why it is asked again."""

from helmwright.fit.finding import Grade, Sign
from helmwright.visit.check import Stage
from helmwright.visit.event import LookAsked
from helmwright.visit.looks import PLAIN_LOOKS, Looked, Looks
from helmwright.visit.round import Round, is_open
from helmwright.visit.step import AskCheck

DISAGREE = "The two answers differ. A third look decides."
SURPRISING = "The other answers speak against this one. Look once more before anything is changed."
CLOSE = "This one may be close to right. Look once more before anything is changed."
DISTURBED = "The {} was changed since, and that can disturb this: look again."
BAD_AGAIN = "Look again before anything is changed."
DOUBTFUL = "Everything is right so far. This is the likeliest to be mistaken: look once more."


def next_question(round_: Round, stage: Stage) -> AskCheck | None:
    """The next check of a stage that waits for an answer; None where none does."""
    looked = round_.of(stage)
    for place, one in enumerate(looked):
        if is_open(one):
            after = () if one.check.sign is Sign.PUT_ON else looked[place + 1 :]
            rest = tuple(other.check for other in after if not other.answers)
            return AskCheck(one.check, len(one.answers) + 1, _put_right(one), rest)
    return None


def _put_right(looked: Looked) -> str:
    """What is to be done, or was, before a check is asked again; empty at the first look."""
    if not looked.answers:
        return DISTURBED.format(looked.disturbed) if looked.disturbed else ""
    return looked.check.put_right or looked.check.answer(looked.answers[-1].word).points_to


def asked_once_more(looked: Looked, why: str) -> AskCheck:
    """The question that a second look is."""
    return AskCheck(looked.check, len(looked.answers) + 1, why)


def plain_look(looked: tuple[Looked, ...], looks: Looks) -> LookAsked | None:
    """The next look where no belief says which: at every bad answer twice more, or at none.

    Parameters
    ----------
    looked
        The checks of a stage, all answered.
    looks
        When second looks are taken, NONE or BAD_ONES.
    """
    if looks is Looks.NONE:
        return None
    for one in looked:
        if one.grades[0] is not Grade.RIGHT and len(one.answers) < PLAIN_LOOKS:
            return LookAsked(one.check.key, BAD_AGAIN)
    return None


def surprise(right: float) -> str:
    """Why a bad answer is asked again whose check is truly right with some chance [1]."""
    return SURPRISING if right > 0.5 else CLOSE


def was_doubted(looked: tuple[Looked, ...]) -> bool:
    """Whether a check whose first answer was good has been looked at again."""
    return any(len(one.answers) > 1 and one.grades[0] is Grade.RIGHT for one in looked)
