"""Face guard and chin strap in the JSON document."""

from pydantic import BaseModel, ConfigDict, Field

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.face_choice import FaceChoice
from helmwright.fit.face_outlook import (
    FaceOutlook,
    GuardOutlook,
    HoldOutlook,
    LoadOutlook,
    StrapOutlook,
)
from helmwright.fit.outlook import Spread
from helmwright.reports.face_cautions import ASSUMED_FACE, CHECK_FACE, assumed_of, check_of
from helmwright.roster import PlayerAnswer, face_choice


class _Part(BaseModel):
    """A part of the document: nothing unknown goes in, and nothing changes once it is built."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class RangePart(_Part):
    """Mean and central 90 percent."""

    mean: float
    low: float
    high: float


class GuardLoadPart(_Part):
    """What a guard's mass does to the neck, the head held level; nose down is positive."""

    mass_kg: float
    about_ears_nm: RangePart
    about_head_center_nm: RangePart
    about_neck_joint_nm: RangePart
    helmet_kg: float
    helmet_about_neck_joint_nm: RangePart
    change_kg: float = Field(description="Against the guard that the sheet lists first.")
    change_nm: float
    change_brow_mm: float


class GuardPart(_Part):
    """One guard that may be used."""

    name: str
    covers: tuple[str, ...]
    leaves_open: tuple[str, ...]
    strap: str | None = Field(description="The strap that goes with it.")
    bars_from_sheet: bool = Field(description="False where usual places of bars were assumed.")
    level_clear: float = Field(ge=0, le=1, description="Nothing stands straight ahead.")
    level_bar: int | None = Field(description="Bar that most often does; 0 is the front edge.")
    up_deg: RangePart
    down_deg: RangePart
    side_deg: RangePart | None = Field(description="To either side of straight ahead.")
    sight: float = Field(ge=0, le=1, description="Straight ahead and far enough up is free.")
    nose_mm: RangePart = Field(description="Tip of the nose to the nearest bar.")
    nose_right: float = Field(ge=0, le=1, description="nose_mm lies within nose_accept_mm.")
    nearest_bar: int = Field(ge=1)
    load: GuardLoadPart | None


class StrapPointPart(_Part):
    """One point of a strap, on either side."""

    start_mm: RangePart
    in_reach: float = Field(ge=0, le=1)
    hold_share: float


class HoldPart(_Part):
    """What weight and strap hold, friction left out."""

    moment_nm: RangePart
    pull_n: RangePart
    strap_n: RangePart = Field(description="At every point, against a pull of 44.5 N.")


class CupPart(_Part):
    """One size of cup, and the chance that its band holds the chin."""

    size: str
    chance: float = Field(ge=0, le=1)


class StrapPart(_Part):
    """One strap that goes on the shell."""

    name: str
    cups: tuple[CupPart, ...]
    points: tuple[StrapPointPart, ...] = Field(description="Of one side, high to low.")
    pull_n: RangePart | None = Field(description="At every point alike.")
    off_forward: HoldPart | None
    off_backward: HoldPart | None


class RefusalPart(_Part):
    """A guard that may not be used, and why."""

    name: str
    why: str


class FacePart(_Part):
    """Face guard and chin strap for one player."""

    shell: int
    positions: tuple[str, ...]
    glasses: bool | None
    asked_for: str
    asked_for_refused: bool
    guards: tuple[GuardPart, ...] = Field(description="Best first.")
    refused: tuple[RefusalPart, ...]
    straps: tuple[StrapPart, ...]
    nose_accept_mm: tuple[float, float] = Field(
        description="The maker's; else 2 in, as a survey of helmets asked, to 2 3/4 in (assumed)."
    )
    nose_accept_by_maker: bool
    draws: int
    check: str = CHECK_FACE
    assumed: str = ASSUMED_FACE


def face_part(answer: PlayerAnswer, sheet: ModelSheet | None) -> FacePart | None:
    """Everything about one player's guard and strap; None where there is neither."""
    choice = face_choice(answer, sheet)
    outlook = answer.proposal.face if answer.proposal else None
    return _face(choice, outlook, sheet) if choice is not None and outlook is not None else None


def _face(choice: FaceChoice, outlook: FaceOutlook, sheet: ModelSheet | None) -> FacePart:
    return FacePart(
        shell=outlook.shell,
        positions=tuple(map(str, choice.wish.positions)),
        glasses=choice.wish.glasses,
        asked_for=choice.wish.guard,
        asked_for_refused=choice.wish_refused is not None,
        guards=tuple(
            _guard(each.guard, each.strap.strap.name if each.strap else None)
            for each in choice.allowed
        ),
        refused=tuple(RefusalPart(name=each.guard, why=each.why) for each in choice.refused),
        straps=tuple(_strap(each) for each in outlook.straps),
        nose_accept_mm=outlook.nose_accept_mm,
        nose_accept_by_maker=outlook.nose_by_maker,
        draws=outlook.draws,
        check=check_of(sheet),
        assumed=assumed_of(sheet),
    )


def _guard(each: GuardOutlook, strap: str | None) -> GuardPart:
    return GuardPart(
        name=each.guard.name,
        covers=tuple(map(str, each.guard.covers)),
        leaves_open=tuple(map(str, each.guard.leaves_open)),
        strap=strap,
        bars_from_sheet=each.from_sheet,
        level_clear=each.level_clear,
        level_bar=each.level_bar,
        up_deg=_range(each.up_deg),
        down_deg=_range(each.down_deg),
        side_deg=_range(each.side_deg) if each.side_deg else None,
        sight=each.sight,
        nose_mm=_range(each.nose_mm),
        nose_right=each.nose_right,
        nearest_bar=each.nearest_bar,
        load=_load(each.load) if each.load else None,
    )


def _load(load: LoadOutlook) -> GuardLoadPart:
    return GuardLoadPart(
        mass_kg=load.mass_kg,
        about_ears_nm=_range(load.tragion_nm),
        about_head_center_nm=_range(load.head_nm),
        about_neck_joint_nm=_range(load.neck_nm),
        helmet_kg=load.helmet_kg,
        helmet_about_neck_joint_nm=_range(load.helmet_neck_nm),
        change_kg=load.change_kg,
        change_nm=load.change_nm,
        change_brow_mm=load.change_brow_mm,
    )


def _strap(each: StrapOutlook) -> StrapPart:
    return StrapPart(
        name=each.strap.name,
        cups=tuple(CupPart(size=size, chance=chance) for size, chance in each.sizes),
        points=tuple(
            StrapPointPart(
                start_mm=_range(point.start_mm),
                in_reach=point.in_reach,
                hold_share=point.hold_share,
            )
            for point in each.points
        ),
        pull_n=_range(each.pull_n) if each.pull_n else None,
        off_forward=_hold(each.off_forward) if each.off_forward else None,
        off_backward=_hold(each.off_backward) if each.off_backward else None,
    )


def _hold(hold: HoldOutlook) -> HoldPart:
    return HoldPart(
        moment_nm=_range(hold.moment_nm),
        pull_n=_range(hold.pull_n),
        strap_n=_range(hold.strap_n),
    )


def _range(spread: Spread) -> RangePart:
    return RangePart(mean=spread.mean, low=spread.low, high=spread.high)
