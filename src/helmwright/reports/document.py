"""The answer as a JSON document with a version, and the schema of that document."""

import json
from collections.abc import Mapping
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.face_parts import FacePart, RangePart

VERSION = 1


class _Part(BaseModel):
    """A part of the document: nothing unknown goes in, and nothing changes once it is built."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class RemarkPart(_Part):
    """Something about one cell of the roster."""

    row: int = Field(ge=0, description="Row as a spreadsheet shows it; 0 for the whole file.")
    who: str = Field(description="The player in that row, where the row says.")
    number: str = Field(description="The jersey number in that row, where the row says.")
    column: str = Field(description="The column's own heading.")
    value: str = Field(description="What the cell holds.")
    wrong: str = Field(description="What is wrong.")
    right: str = Field(description="What would be right.")


class ChancePart(_Part):
    """A probability counted on fresh draws."""

    value: float = Field(ge=0, le=1)
    error: float = Field(ge=0, description="Standard error of the count.")


class SpreadPart(_Part):
    """Mean, median and central 90 percent."""

    mean: float
    median: float
    low: float
    high: float


class MeasurePart(_Part):
    """What is believed about one measure of the head."""

    measure: str
    read: bool = Field(description="True where it was read, false where it is estimated.")
    mean_mm: float
    low_mm: float = Field(description="Lower end of the central 90 percent.")
    high_mm: float = Field(description="Upper end of the central 90 percent.")


class CoveringPart(_Part):
    """What is believed of hair or headwear between head and tape."""

    kind: str
    worn: bool = Field(description="False where it was only taped over.")
    firm_mm: RangePart = Field(description="Thickness under a drawn-in tape.")


class MeasurerPart(_Part):
    """How closely one person's repeats agree."""

    by: str
    measure: str
    pairs: int = Field(ge=1, description="Repeats beyond the first, over all heads.")
    tem_mm: float = Field(ge=0, description="Technical error by these repeats alone.")
    usual_mm: float
    used_mm: float = Field(description="What the answer goes by.")
    past_usual: bool


class SizeRiskPart(_Part):
    """Whether the tape's reading lies on a line between two shells."""

    read_mm: float = Field(description="The reading, over what will be worn.")
    shell: int = Field(ge=0, description="What the chart gives the reading; 0 for none.")
    other: int = Field(ge=0, description="What the head would likeliest get instead; 0 for none.")
    chance: float = Field(ge=0, le=1, description="Chance of another shell, measured exactly.")


class ShellPart(_Part):
    """How likely the size chart names one shell."""

    shell: int
    chance: float = Field(ge=0, le=1)


class FaultPart(_Part):
    """What may be wrong, and in what share of the draws."""

    kind: str
    zone: str | None = Field(description="Null for the height of the helmet.")
    chance: float = Field(ge=0, le=1)


class ZonePart(_Part):
    """One zone of a build."""

    zone: str
    pad: str = Field(description="Thickness as written on the bag.")
    pad_mm: float
    stroke_mm: SpreadPart = Field(description="Compression; negative is a gap.")
    pressure_kpa: SpreadPart
    force_n: SpreadPart
    loose: float = Field(ge=0, le=1)
    tight: float = Field(ge=0, le=1)


class FillPart(_Part):
    """What filling one bladder by feel is expected to come to."""

    zones: tuple[str, ...]
    pad_mm: tuple[SpreadPart, ...] = Field(description="Zone by zone, with so much air in it.")
    gauge_kpa: SpreadPart = Field(description="Pressure of its air over the air around.")
    air_ml: SpreadPart
    strokes: SpreadPart | None = Field(description="Of the sheet's pump, where it names one.")
    full: float = Field(ge=0, le=1, description="Chance that a cell of it reaches no further.")
    flat: float = Field(ge=0, le=1, description="Chance that one has no air to let out.")


class ShiftPart(_Part):
    """How far a chance moves."""

    value: float = Field(description="The chance there less the chance as stated.")
    error: float = Field(ge=0, description="Standard error, on common draws.")


class SettingPart(_Part):
    """What an assumption is set to."""

    value: float
    unit: str
    source: str = Field(description="Key of the source; assumed where there is none.")
    note: str


class DriverPart(_Part):
    """One assumption, and how far the chances move when it goes to its low and to its high."""

    assumption: str
    low: SettingPart
    high: SettingPart
    fits_low: ShiftPart
    fits_high: ShiftPart
    found_low: ShiftPart
    found_high: ShiftPart


class BuildPart(_Part):
    """One build with its chances."""

    shell: int
    found_right: ChancePart = Field(description="A fitter's checks all pass at the first try-on.")
    truly_fits: ChancePart = Field(description="Everything is right at once, whoever checks.")
    changes: tuple[str, ...] = Field(description="Zones whose pad changes.")
    zones: tuple[ZonePart, ...]
    brow_mm: SpreadPart = Field(description="Eyebrow to front edge.")
    tilt_deg: SpreadPart = Field(description="Nose-down tilt.")
    twist_nm: SpreadPart = Field(description="Twist resisted before the skin slips.")
    roll_nm: SpreadPart
    floats: float = Field(ge=0, le=1, description="Chance that it touches too little to be held.")
    faults: tuple[FaultPart, ...] = Field(description="Likeliest first.")
    drivers: tuple[DriverPart, ...] = Field(
        description="What drives the chances, strongest first; empty where it was not counted."
    )
    fills: tuple[FillPart, ...] = Field(description="Air cells, bladder by bladder.")


class GainPart(_Part):
    """What a measure is expected to add to the best chance, taken now or once more."""

    measure: str
    gain: float
    error: float
    minutes: float = Field(gt=0, description="What taking it twice takes.")
    repeat: bool = Field(description="True where it was read before.")


class InsideGainPart(_Part):
    """What measuring the inside of the proposed shell is expected to add to the best chance."""

    numbers: tuple[str, ...] = Field(description="Keys of the model sheet.")
    gain: float
    error: float


class NowPart(_Part):
    """What is said to be in the helmet now."""

    shell: int
    pads: tuple[str, ...] = Field(description="Zone by zone, as written on the bag.")


class ProposalPart(_Part):
    """The builds for one player."""

    chart: tuple[ShellPart, ...] = Field(description="What the size chart names.")
    now: NowPart | None = Field(
        description="The build in the helmet now, where somebody said; changes count from it."
    )
    ranked: tuple[BuildPart, ...] = Field(min_length=1, description="Best first.")
    delivered: BuildPart = Field(description="The best of the builds as delivered.")
    next_measures: tuple[GainPart, ...] = Field(
        description="Best first; of gains that cannot be told apart, the most a minute."
    )
    within_reach: float = Field(
        ge=0,
        le=1,
        description="Chance that this build, or one that changing pads or shell leads to, fits.",
    )
    measured: bool = Field(description="False where the size of the head was not read at all.")
    warnings: tuple[str, ...] = Field(description="What speaks against the proposal as a whole.")
    insides_known: bool = Field(
        description="False where the proposed shell was not measured and the usual is assumed."
    )
    inside_gain: InsideGainPart | None = Field(
        description="What inside calipers would add; null where nothing is lacking."
    )
    size_risk: SizeRiskPart | None = Field(description="Null where no tape was read.")
    suits: bool = Field(description="False where this model does not suit this head.")
    draws: int = Field(ge=1)
    reasons: tuple[str, ...]


class PlayerPart(_Part):
    """One player who is answered."""

    row: int = Field(ge=0)
    number: str
    name: str
    position: str
    age: str = Field(description="As it was understood, with its unit; empty for an adult.")
    head: tuple[MeasurePart, ...]
    coverings: tuple[CoveringPart, ...] = Field(description="Hair and headwear, where any is.")
    proposal: ProposalPart | None = Field(description="Null where only the head was asked for.")
    face: FacePart | None = Field(
        description="Face guard and chin strap; null where the sheet has neither."
    )


class IntervalPart(_Part):
    """An interval."""

    low: float
    high: float


class InstructionPart(_Part):
    """One fitting instruction of the model sheet; it wins over what is proposed."""

    about: str
    says: str
    accept_mm: IntervalPart | None = Field(
        description="What is accepted; null where the instruction gives no lengths."
    )


class AnswerDocument(_Part):
    """What `helmwright roster`, `build` and `head` print with --json."""

    document: Literal["helmwright answer"] = "helmwright answer"
    version: Literal[1] = 1
    model: str | None = Field(description="The helmet model; null where none was used.")
    invented: bool | None = Field(description="True for a model that is not on sale.")
    instructions: tuple[InstructionPart, ...] = Field(
        description="The maker's own fitting instructions, as the model sheet gives them."
    )
    seed: int
    asked: int = Field(ge=0, description="Rows to answer.")
    answered: int = Field(ge=0)
    players: tuple[PlayerPart, ...]
    measurers: tuple[MeasurerPart, ...] = Field(
        description="Who measured, where the roster says so and there are repeats."
    )
    problems: tuple[RemarkPart, ...] = Field(description="Why rows are not answered.")
    notices: tuple[RemarkPart, ...] = Field(description="Answered, but worth a look.")
    cautions: tuple[str, ...] = CAUTIONS
    assumed: tuple[str, ...] = (ASSUMED,)


def answer_schema() -> Mapping[str, Any]:
    """The JSON Schema of the document."""
    schema = AnswerDocument.model_json_schema(mode="serialization")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def answer_schema_text() -> str:
    """The schema as the file in the documentation holds it."""
    return json.dumps(answer_schema(), indent=2, ensure_ascii=False) + "\n"
