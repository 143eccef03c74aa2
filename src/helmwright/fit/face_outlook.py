"""What the fit room says of face guards and chin straps on one head in one build."""

from dataclasses import dataclass

from helmwright.catalogue.parts import ChinStrap, FaceGuard
from helmwright.fit.outlook import Spread


@dataclass(frozen=True, slots=True)
class LoadOutlook:
    """What a guard's mass does to the neck.

    Parameters
    ----------
    mass_kg
        The guard [kg].
    tragion_nm, head_nm, neck_nm
        Its moment about the axis through the ear notches, about the head's own center of mass and
        about the joint between skull and neck, head level [N m]; it turns the nose down.
    helmet_kg
        The whole helmet with this guard [kg].
    helmet_neck_nm
        The whole helmet's moment about the joint between skull and neck [N m].
    change_kg, change_nm, change_brow_mm
        Helmet, its moment at the neck and the brow height, less those with the guard that the
        sheet lists first [kg], [N m], [mm].
    """

    mass_kg: float
    tragion_nm: Spread
    head_nm: Spread
    neck_nm: Spread
    helmet_kg: float
    helmet_neck_nm: Spread
    change_kg: float
    change_nm: float
    change_brow_mm: float


@dataclass(frozen=True, slots=True)
class GuardOutlook:
    """One face guard before one face.

    Parameters
    ----------
    guard
        The part.
    from_sheet
        Whether the sheet says where its bars are; otherwise usual places were assumed.
    level_clear
        Chance that nothing stands in the level line of sight [1].
    level_bar
        The bar that stands in it most often, counted from the top from 1; 0 is the front edge,
        None where none ever does.
    up_deg, down_deg
        Free angle above and below the level line in the middle plane [deg]; 0 where that line is
        barred. Down ends at 90.
    side_deg
        Free angle to either side [deg]; None where the sheet does not say where the sides are.
    sight
        Chance that the level line is clear and that enough is free above it [1].
    nose_mm
        Tip of the nose to the nearest bar [mm].
    nose_right
        Chance that this lies in the accepted interval [1].
    nearest_bar
        The bar that is nearest most often, from the top from 1.
    load
        What its mass does; None where the sheet gives no mass.
    """

    guard: FaceGuard
    from_sheet: bool
    level_clear: float
    level_bar: int | None
    up_deg: Spread
    down_deg: Spread
    side_deg: Spread | None
    sight: float
    nose_mm: Spread
    nose_right: float
    nearest_bar: int
    load: LoadOutlook | None


@dataclass(frozen=True, slots=True)
class PointOutlook:
    """One point of a strap, on either side.

    Parameters
    ----------
    start_mm
        Length to begin with, from the edge of the cup to the snap, along the face [mm].
    in_reach
        Chance that the strap's buckle allows it [1].
    hold_share
        Its share of what the strap does against rolling off forward, all points pulling alike [1].
    """

    start_mm: Spread
    in_reach: float
    hold_share: float


@dataclass(frozen=True, slots=True)
class HoldOutlook:
    """What keeps a helmet on, by statics, friction and pads left out.

    Parameters
    ----------
    moment_nm
        What the weight and the strap as first set resist together [N m].
    pull_n
        The pull at the far edge that this balances [N].
    strap_n
        What every point must carry against a pull of `helmwright.fit.strap.PULL` [N].
    """

    moment_nm: Spread
    pull_n: Spread
    strap_n: Spread


@dataclass(frozen=True, slots=True)
class StrapOutlook:
    """One chin strap on one face.

    Parameters
    ----------
    strap
        The part.
    points
        The points of one side, in the order of the sheet; empty where it gives no snaps.
    pull_n
        Pull at every point alike that goes with the strap's pull on the sheet [N].
    sizes
        For each size, the chance that its band holds the chin [1]; empty where the sheet gives no
        bands.
    off_forward, off_backward
        Against rolling off forward, pulled up at the rear edge, and backward, pushed up at the
        face guard; None without snaps, or where they lie so that the strap does not hold.
    """

    strap: ChinStrap
    points: tuple[PointOutlook, ...]
    pull_n: Spread | None
    sizes: tuple[tuple[str, float], ...]
    off_forward: HoldOutlook | None
    off_backward: HoldOutlook | None

    @property
    def size(self) -> str | None:
        """The likeliest size; None where nothing tells."""
        return max(self.sizes, key=lambda size: size[1])[0] if self.sizes else None


@dataclass(frozen=True, slots=True)
class FaceOutlook:
    """Every guard and strap that goes on the proposed shell.

    Parameters
    ----------
    shell
        The shell's number.
    guards, straps
        Those listed for it, in the order of the sheet.
    nose_accept_mm
        The accepted distance from nose to bar [mm].
    nose_by_maker
        Whether that is the maker's own instruction.
    draws
        On how many heads it was counted.
    """

    shell: int
    guards: tuple[GuardOutlook, ...]
    straps: tuple[StrapOutlook, ...]
    nose_accept_mm: tuple[float, float]
    nose_by_maker: bool
    draws: int
