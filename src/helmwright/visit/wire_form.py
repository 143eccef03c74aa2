"""The form of events as JSON objects: names of the fields, what they hold, what may be left out."""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter

from helmwright.anatomy import Over, Sex, Touch
from helmwright.anatomy.prior import MALE_SHARE
from helmwright.anatomy.surveys.table import BLEND
from helmwright.catalogue.zone import Zone


class Form(BaseModel):
    """Part of a line: nothing unknown goes in, and a number is no text."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, allow_inf_nan=False)


class PadForm(Form):
    """The pad of one zone."""

    pad: str = Field(description="Thickness as written on the bag.")
    mm: float | None = Field(
        default=None, description="The same in millimeters; where given, it is held to the sheet."
    )


class PadsForm(Form):
    """The pad of every zone; left and right are the wearer's."""

    crown: PadForm
    front: PadForm
    rear: PadForm
    left: PadForm
    right: PadForm
    nape: PadForm
    jaw_left: PadForm = Field(alias="jaw left")
    jaw_right: PadForm = Field(alias="jaw right")

    def of(self, zone: Zone) -> PadForm:
        """That of one zone."""
        pad: PadForm = getattr(self, zone.name.lower())
        return pad


class BuildForm(Form):
    """The parts in one shell."""

    shell: int = Field(description="The shell's number on the model sheet.")
    pads: PadsForm


class ReadingForm(Form):
    """One number off a tape or caliper."""

    measure: str
    value_mm: float
    over: Over = Field(default=Over.UNSTATED, description="What it was taken over.")
    months_ago: float = 0.0
    beneath: Over | None = Field(default=None, description="Hair under a cap.")
    touch: Touch = Touch.DRAWN_IN
    by: str = Field(default="", description="Who took it.")
    tem_mm: float | None = Field(default=None, description="Technical error of that person.")


class StatedForm(Form):
    """What is known of the player before any reading; what nobody said is left out."""

    sex: Sex | None = None
    stature_mm: float | None = None
    weight_kg: float | None = None
    male_share: float = MALE_SHARE.value
    survey: str = BLEND
    age_years: float | None = None
    ages: tuple[float, float] | None = None


class ShelfForm(Form):
    """Parts at this store."""

    place: str
    size: str = Field(description="Shell number, or thickness as written on the bag.")
    count: int


class StartedForm(Form):
    """A player and a helmet."""

    event: Literal["started"]
    who: str
    sheet: str = Field(description="Digest of the model sheet's content.")
    seed: int
    readings: tuple[ReadingForm, ...]
    stated: StatedForm
    worn: tuple[Over, ...] | None = Field(default=None, description="Null where nobody said.")
    current: BuildForm | None = Field(
        default=None, description="What is in the helmet now; null for the delivered build."
    )
    shelf: tuple[ShelfForm, ...] | None = Field(
        default=None, description="Null where everything listed is there."
    )
    helmets: tuple[BuildForm, ...] = Field(
        default=(),
        description="What lies in each further helmet here, beside shells that are counted.",
    )


class MeasureAskedForm(Form):
    """The program asks for a measure before it proposes."""

    event: Literal["measure asked"]
    measure: str
    why: str


class MeasuredForm(Form):
    """Readings that were taken in the visit."""

    event: Literal["measured"]
    readings: tuple[ReadingForm, ...]


class MeasureSkippedForm(Form):
    """The measure that was asked for is not taken."""

    event: Literal["measure skipped"]
    measure: str


class ProposedForm(Form):
    """The program proposes a build."""

    event: Literal["proposed"]
    build: BuildForm
    fits: float = Field(description="Chance that everything is right.")
    found_right: float = Field(description="Chance that a fitter finds it so.")
    minutes: float = Field(description="For changing to it and trying it on (assumed).")
    why: str
    effective: float = Field(description="Effective number of draws behind the chances.")


class NotHereForm(Form):
    """A part of the proposed build is not at this store, whatever was counted."""

    event: Literal["not here"]
    place: str = Field(description="The zone that it is for.")
    size: str = Field(description="Thickness as written on the bag.")


class PutOnForm(Form):
    """A build is on the head."""

    event: Literal["put on"]
    build: BuildForm
    reason: str = Field(default="", description="Why another than the proposed one.")
    lay: BuildForm | None = Field(
        default=None,
        description="What lay in the helmet as it was taken up; null for the one at hand, or as"
        " far as the visit knows.",
    )


class AnsweredForm(Form):
    """A check was answered."""

    event: Literal["answered"]
    check: str
    word: str
    value_mm: float | None = Field(default=None, description="The length read, where one was.")


class LookAskedForm(Form):
    """The program asks to look at a check again."""

    event: Literal["look asked"]
    check: str
    why: str


class UndoneForm(Form):
    """The last thing that a person said is taken back, with what the program said to it."""

    event: Literal["undone"]


class PausedForm(Form):
    """The visit is interrupted."""

    event: Literal["paused"]


class ResumedForm(Form):
    """The visit goes on."""

    event: Literal["resumed"]


class SymptomForm(Form):
    """A symptom of injury or illness: the visit is over, medical staff are told."""

    event: Literal["symptom reported"]
    words: str


class StoppedForm(Form):
    """The fitter ends the visit."""

    event: Literal["stopped"]
    reason: str


class AcceptedForm(Form):
    """Every check is right."""

    event: Literal["accepted"]
    build: BuildForm


class WouldForm(Form):
    """Something that is not here and would do."""

    build: BuildForm
    lacking: tuple[str, ...] = Field(description="Its parts that are not here.")
    fits: float = Field(description="The chance that it fits.")


class NoBuildForm(Form):
    """Nothing here can be made to fit; what would, where anything would."""

    event: Literal["no build"]
    why: str
    would: tuple[WouldForm, ...] = ()


EventForm = Annotated[
    StartedForm
    | MeasureAskedForm
    | MeasuredForm
    | MeasureSkippedForm
    | ProposedForm
    | NotHereForm
    | PutOnForm
    | AnsweredForm
    | LookAskedForm
    | UndoneForm
    | PausedForm
    | ResumedForm
    | SymptomForm
    | StoppedForm
    | AcceptedForm
    | NoBuildForm,
    Field(discriminator="event"),
]
"""Anything that can happen, as it is written."""

EVENT_FORM: TypeAdapter[Any] = TypeAdapter(EventForm)
