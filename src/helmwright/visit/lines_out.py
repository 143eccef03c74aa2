"""The messages with which the program answers in a dialogue of lines."""

from typing import Annotated, Any, Literal

from pydantic import Field, TypeAdapter

from helmwright.catalogue.changing import PartKind
from helmwright.catalogue.zone import Zone
from helmwright.visit.check import Stage, SubScore
from helmwright.visit.wire_form import AnsweredForm, BuildForm, EventForm, Form, WouldForm


class AnswerForm(Form):
    """One way to answer a check."""

    word: str
    right: bool = Field(description="Whether it is accepted.")
    says: str
    points_to: str = Field(description="What it points to; empty for a right one.")
    zone: Zone | None


class LengthForm(Form):
    """The length that a check reads; it decides, whatever the word."""

    accept_mm: tuple[float, float]
    accept: str = Field(description="The same in inches.")
    low_mm: float = Field(description="Under this it can be nobody's.")
    high_mm: float


class StrapForm(Form):
    """What one point of the chin strap is set to before it is tried, left and right alike."""

    place: str = Field(description="Which point of one side, by its height.")
    start_mm: float = Field(description="From the edge of the cup to the snap.")
    low_mm: float = Field(description="Nine of ten such faces need a length between these.")
    high_mm: float


class ExpectForm(Form):
    """What is expected at a check."""

    says: str = Field(description="In plain words, inches first.")
    assumed: str = Field(description="What it leans on.")
    mean_mm: float | None = Field(description="Null where no length is expected.")
    strap: tuple[StrapForm, ...] = Field(description="Where to begin with each point.")


class CheckForm(Form):
    """A check that is asked."""

    check: str = Field(description="Its key, as an answer names it.")
    title: str
    stage: Stage
    how: tuple[str, ...]
    accept: str
    answers: tuple[AnswerForm, ...]
    length: LengthForm | None
    expect: ExpectForm | None = Field(description="Null where nothing is foreseen.")
    put_right: str = Field(description="What puts a bad answer right on the spot.")
    sub_score: SubScore
    source: str
    by_maker: bool = Field(description="Whether the maker's own instruction stands here.")


class SwapForm(Form):
    """One pad that goes out for another."""

    zone: Zone
    out: str = Field(description="Thickness as written on the bag.")
    into: str
    part_number: str = Field(description="Of the new one; empty where the sheet is silent.")


class ChangeForm(Form):
    """Parts of one kind that are changed, and how."""

    part: PartKind
    shell: int | None = Field(description="The new shell's number, where the shell changes.")
    swaps: tuple[SwapForm, ...] = Field(
        description="Pad by pad; with another shell, out of those that it arrives with."
    )
    steps: tuple[str, ...]
    by_maker: bool = Field(description="Whether the steps are the maker's own.")
    whose: str = Field(description="Whose steps they are, to be shown with them.")
    again: tuple[str, ...] = Field(description="Checks that the change can disturb.")


class ScoreForm(Form):
    """One of the five sub-scores; they are never added up."""

    sub_score: SubScore
    right: int = Field(ge=0)
    answered: int = Field(ge=0)


class NotTakenForm(Form):
    """An answer that was sent and is not kept."""

    check: str
    why: str


class Reply(Form):
    """What every question and every end carries."""

    message: str
    not_taken: tuple[NotTakenForm, ...] = Field(
        default=(), description="Answers that were sent but are not asked now; they are not kept."
    )
    notices: tuple[str, ...] = Field(
        default=(), description="What to look at in readings that were just taken."
    )


class MeasureReply(Reply):
    """A measure is asked for; answer with measured or skip."""

    message: Literal["measure"]
    measure: str
    name: str
    how: str
    low_mm: float
    high_mm: float
    minutes: float
    why: str


class PutOnReply(Reply):
    """The build is to be made up and put on; answer with put on."""

    message: Literal["put on"]
    build: BuildForm
    before: BuildForm


class ChecksReply(Reply):
    """Checks to be answered with findings: the first, and those that follow whatever it says."""

    message: Literal["checks"]
    checks: tuple[CheckForm, ...] = Field(min_length=1)


class LookReply(Reply):
    """One check is to be looked at again; answer with findings."""

    message: Literal["look"]
    check: CheckForm
    look: int = Field(ge=2, description="2 for the second look at this try-on.")
    why: str
    changes: tuple[ChangeForm, ...] = Field(
        description="What putting it right on the spot may change, and how; else empty."
    )


class PausedReply(Reply):
    """The visit is paused; answer with resume."""

    message: Literal["paused"]


class AcceptedReply(Reply):
    """The end: every check is right."""

    message: Literal["accepted"]
    build: BuildForm
    sub_scores: tuple[ScoreForm, ...]
    scores_assumed: str
    cautions: tuple[str, ...]


class NoBuildReply(Reply):
    """The end: nothing here can be made to fit."""

    message: Literal["no build"]
    why: str
    would: tuple[WouldForm, ...]
    cautions: tuple[str, ...]


class StoppedReply(Reply):
    """The end: the fitter stopped."""

    message: Literal["stopped"]
    reason: str
    cautions: tuple[str, ...]


class SymptomReply(Reply):
    """The end: a symptom was reported; no fit change is proposed for it."""

    message: Literal["symptom"]
    words: str
    do: str
    cautions: tuple[str, ...]


_Question = (
    MeasureReply
    | PutOnReply
    | ChecksReply
    | LookReply
    | PausedReply
    | AcceptedReply
    | NoBuildReply
    | StoppedReply
    | SymptomReply
)
QuestionReply = Annotated[_Question, Field(discriminator="message")]
"""What waits for an answer, or the end."""


class ProposalReply(Reply):
    """A build is proposed; `next` is what to do first."""

    message: Literal["proposal"]
    build: BuildForm
    before: BuildForm = Field(description="What is in the helmet; as delivered if nobody said.")
    changes: tuple[ChangeForm, ...] = Field(description="In working order.")
    fits: float = Field(ge=0, le=1, description="Chance that everything is right.")
    found_right: float = Field(ge=0, le=1, description="Chance that a fitter finds it so.")
    effective: float = Field(ge=0, description="Effective number of draws behind the chances.")
    minutes: float = Field(ge=0, description="For the changes and a try-on; assumed times.")
    why: str
    checks: tuple[CheckForm, ...] = Field(description="What will be asked with it on the head.")
    next: QuestionReply


NextReply = Annotated[_Question | ProposalReply, Field(discriminator="message")]
"""The same, or a proposal with what waits for an answer in it."""


class StartedReply(Form):
    """The visit begins, or goes on where it was; `next` is what it waits for."""

    message: Literal["started"]
    version: Literal[1]
    who: str
    model: str
    invented: bool = Field(description="True for a model that is not on sale.")
    sheet: str = Field(description="Digest of the model sheet's content.")
    protocol: str
    seed: int
    kept: int = Field(ge=0, description="Events of an unfinished visit that is gone on with.")
    symptoms: tuple[str, ...] = Field(description="What ends the visit when a player says it.")
    notices: tuple[str, ...] = Field(description="What to look at in player and stock.")
    cautions: tuple[str, ...]
    assumed: tuple[str, ...] = Field(description="What the chances lean on.")
    next: NextReply


class LookedForm(Form):
    """Why a check was looked at again."""

    check: str
    why: str


class TryOnForm(Form):
    """A build that was on the head, with what was answered."""

    build: BuildForm
    other_shell: bool = Field(description="Whether another shell was taken for it.")
    changed: tuple[Zone, ...] = Field(description="Zones whose pad was changed for it.")
    why: str = Field(description="Why it was proposed, or put on instead.")
    proposed: bool = Field(description="False for a build put on instead of the proposed one.")
    answers: tuple[AnsweredForm, ...] = Field(description="In order, repeats included.")
    looks: tuple[LookedForm, ...] = Field(description="Checks that were asked again.")


class StateReply(Form):
    """The whole visit; `next` is what it waits for."""

    message: Literal["state"]
    version: Literal[1]
    events: tuple[EventForm, ...]
    try_ons: tuple[TryOnForm, ...]
    rejected: tuple[BuildForm, ...]
    in_helmet: BuildForm | None
    skipped: tuple[str, ...]
    sub_scores: tuple[ScoreForm, ...]
    next: NextReply


class ErrorReply(Form):
    """The line was not understood, cannot come now, or the disk took no more of it."""

    message: Literal["error"]
    what: str
    where: str = Field(description="Which field; empty for the line as a whole.")
    right: str = Field(description="What would be right.")
    taken: tuple[EventForm, ...] = Field(
        description="What happened by this line all the same, as events: where the disk fills in"
        " the middle of it. Nothing else was changed."
    )


OutMessage = Annotated[
    StartedReply | _Question | ProposalReply | StateReply | ErrorReply,
    Field(discriminator="message"),
]
"""Anything that is answered: one for each line that is sent."""

OUT_MESSAGE: TypeAdapter[Any] = TypeAdapter(OutMessage)


def line_of(reply: OutMessage) -> bytes:
    """The answer as one line; what an event leaves out as usual stays out."""
    return OUT_MESSAGE.dump_json(reply, by_alias=True, exclude_unset=True) + b"\n"
