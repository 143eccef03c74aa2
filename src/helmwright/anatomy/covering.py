"""What lies between a head and the tape, and later the pads: hair, and what is worn over it."""

from dataclasses import dataclass
from enum import StrEnum
from math import sqrt

from helmwright.anatomy.age import adult_share
from helmwright.anatomy.measures import TAPE_LAYERS, measure_of
from helmwright.anatomy.part import age_of, sex_of
from helmwright.anatomy.sex import Sex
from helmwright.belief import Mixture, Normal
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, NIOSH_2003, SNYDER_1977, US_ARMY_2012


class Over(StrEnum):
    """What a reading was taken over, or what will be worn under the helmet."""

    UNSTATED = "not stated"
    BARE = "bare"
    SHORT_HAIR = "short hair"
    THICK_HAIR = "thick hair"
    BRAIDS = "braids or locs"
    SKULL_CAP = "skull cap"
    WINTER_CAP = "winter cap"

    @classmethod
    def _missing_(cls, value: object) -> "Over | None":
        """A cap that nobody calls warm is a thin one."""
        return cls.SKULL_CAP if value == "cap" else None

    @property
    def is_headwear(self) -> bool:
        """Whether it goes over whatever hair there is."""
        return self in (Over.SKULL_CAP, Over.WINTER_CAP)


class Touch(StrEnum):
    """How firmly a tape was drawn."""

    LIGHT = "light"
    DRAWN_IN = "drawn in"


@dataclass(frozen=True, slots=True)
class Covering:
    """One kind of hair or headwear.

    Parameters
    ----------
    firm
        What is left of it under a tape that is drawn in until it stops giving [mm].
    loose
        What a light tape rides on beyond that [mm].
    caliper
        Share of the firm thickness that stays under a caliper's tip [1].
    """

    firm: Figure
    loose: Figure
    caliper: Figure


def _mm(value: float, spread: float, note: str) -> Figure:
    return Figure(value, "mm", ASSUMED, spread=spread, note=note)


_UNDER_TAPE = "left under a tape drawn in"
_RIDES = "what a light tape rides on beyond that"
_TIP = "share of the firm thickness left under a caliper's tip"

COVERINGS: dict[Over, Covering] = {
    Over.SHORT_HAIR: Covering(
        _mm(0.3, 0.3, f"Short hair {_UNDER_TAPE}; the surveys' men wore theirs short."),
        _mm(0.7, 0.6, f"Short hair: {_RIDES}."),
        Figure(0.3, "1", ASSUMED, note=f"Short hair: {_TIP}."),
    ),
    Over.THICK_HAIR: Covering(
        _mm(1.5, 1.0, f"Thick hair {_UNDER_TAPE}."),
        _mm(3.0, 2.0, f"Thick hair: {_RIDES}."),
        Figure(0.5, "1", ASSUMED, note=f"Thick hair: {_TIP}; the tip can be worked into it."),
    ),
    Over.BRAIDS: Covering(
        _mm(3.0, 1.5, f"Braids or locs {_UNDER_TAPE}."),
        _mm(2.5, 1.5, f"Braids or locs: {_RIDES}."),
        Figure(0.6, "1", ASSUMED, note=f"Braids or locs: {_TIP}; it finds the rows between."),
    ),
    Over.SKULL_CAP: Covering(
        _mm(1.0, 0.5, f"A thin cap {_UNDER_TAPE}."),
        _mm(0.2, 0.2, f"A thin cap: {_RIDES}."),
        Figure(0.9, "1", ASSUMED, note=f"A thin cap: {_TIP}."),
    ),
    Over.WINTER_CAP: Covering(
        _mm(2.0, 0.8, f"A knit or fleece cap {_UNDER_TAPE}."),
        _mm(1.2, 0.7, f"A knit or fleece cap: {_RIDES}."),
        Figure(0.8, "1", ASSUMED, note=f"A knit or fleece cap: {_TIP}."),
    ),
}
"""Thicknesses between head and tape; all assumed, with wide spreads."""

LOOSE_WITH_FIRM = Figure(
    0.6, "1", ASSUMED, note="Correlation of firm and loose thickness: what is bulky is bulky twice."
)
UNSTATED_LOOSE = Figure(
    1.0, "mm", ASSUMED, spread=1.5, note="What a light tape rides on where nobody said over what."
)

GIRLS_HAIR = Figure(
    1.8,
    "mm",
    SNYDER_1977,
    spread=0.0,
    note="The same of girls of 8 to 18: their excess differs little from the boys'.",
)

_HAIR = "Hair in the women's circumferences: their excess over the ellipse beyond the men's."
SURVEY_HAIR: dict[str, Figure] = {
    "us_army_2012": Figure(12.5, "mm", US_ARMY_2012, spread=8.9, note=_HAIR),
    "niosh_2003": Figure(7.9, "mm", NIOSH_2003, spread=10.6, note=_HAIR),
    "joined": Figure(10.2, "mm", ASSUMED, spread=9.3, note=f"{_HAIR} Blend of both surveys."),
}
"""By survey: how much of a woman's circumference is hair, and how it varies [mm].

The men of the same survey are the baseline: the mean is the difference of the two mean excesses
over the ellipse of length and breadth, the variance that of the two residual variances of
circumference given length and breadth. That the difference is hair and not shape is a reading of
the survey's own note that braids were measured over; it is not measured.
"""

GIRTHS = ("head_circumference", "tape_circumference")
_CALIPER_LAYERS = 2.0


def survey_hair(label: str, survey: str = "joined") -> tuple[float, float]:
    """Mean [mm] and variance [mm2] of the hair in the circumference of a part of the prior.

    Parameters
    ----------
    label
        The part's: a sex and maybe an age.
    survey
        Key of the adults' survey.

    Notes
    -----
    None for males. For girls it passes from GIRLS_HAIR to the women's as the prior passes from
    the youth surveys to the adult ones.
    """
    if sex_of(label) is Sex.MALE:
        return 0.0, 0.0
    age = age_of(label)
    adult = 1.0 if age is None else adult_share(age)
    woman, girl = SURVEY_HAIR[survey], GIRLS_HAIR
    mean = adult * woman.value + (1.0 - adult) * girl.value
    return mean, adult * (woman.spread or 0.0) ** 2 + (1.0 - adult) * (girl.spread or 0.0) ** 2


def bared(surveyed: Normal, label: str, survey: str) -> Normal:
    """The belief over bare heads, from the one over heads as surveyed.

    Parameters
    ----------
    surveyed
        Over the measures, and maybe more.
    label
        Whom it describes: a sex and maybe an age.
    survey
        Key of the adults' survey.

    Notes
    -----
    A woman's surveyed circumference C is taken as the head's own plus hair h that is independent
    of everything else: mean(C) - mean(h), var(C) - var(h), covariances kept, for the surveys'
    circumference and for the trade's tape alike. Length, breadth and height stay as they are:
    what hair the calipers left on them is not known. Men are the baseline and stay as they are.
    """
    hair, variance = survey_hair(label, survey)
    if not hair:
        return surveyed
    places = [surveyed.index(name) for name in GIRTHS if name in surveyed.names]
    mean, covariance = surveyed.mean.copy(), surveyed.covariance.copy()
    for place in places:
        mean[place] -= hair
        covariance[place, places] -= variance
    return Normal(surveyed.names, mean, covariance)


def firm_name(kind: Over) -> str:
    """Name of the firm thickness in a belief."""
    return f"{kind.value}, firm"


def loose_name(kind: Over) -> str:
    """Name of the loose thickness in a belief."""
    return f"{kind.value}, loose"


LAYER_NAMES = frozenset(name(kind) for kind in Over for name in (firm_name, loose_name))
"""Names of all the thicknesses that a belief may hold."""


def with_coverings(prior: Mixture, kinds: frozenset[Over], light: frozenset[Over]) -> Mixture:
    """The prior with the thicknesses of the coverings that matter.

    Parameters
    ----------
    prior
        Over the measures, parts labeled by sex.
    kinds
        What was taped over, or will be worn.
    light
        Those over which a light tape was read.

    Notes
    -----
    Each kind adds its firm and its loose thickness, correlated by LOOSE_WITH_FIRM and independent
    of the head. Where nothing was said, a woman's part holds the hair that the surveys' women had
    and a man's none; the loose thickness is added only where a light tape was read over it.
    """
    for kind in Over:
        if kind in kinds and _says_something(prior, kind, light):
            loose = kind in COVERINGS or kind in light
            parts = tuple(
                _with_covering(part, kind, label, loose=loose)
                for part, label in zip(prior.parts, prior.labels, strict=True)
            )
            prior = Mixture(prior.weights, parts, prior.labels)
    return prior


def _says_something(prior: Mixture, kind: Over, light: frozenset[Over]) -> bool:
    if kind is Over.UNSTATED:
        return kind in light or any(_is_female(label) for label in prior.labels)
    return kind in COVERINGS


def _is_female(label: str) -> bool:
    return sex_of(label) is Sex.FEMALE


def _with_covering(part: Normal, kind: Over, label: str, *, loose: bool) -> Normal:
    (firm, spread), (more, more_spread) = thicknesses(kind, label)
    part = part.extended(firm_name(kind), {}, offset=firm, variance=spread**2)
    if not loose:
        return part
    share = LOOSE_WITH_FIRM.value if spread else 0.0
    slope = share * more_spread / spread if spread else 0.0
    return part.extended(
        loose_name(kind),
        {firm_name(kind): slope},
        offset=more - slope * firm,
        variance=more_spread**2 * (1.0 - share**2),
    )


Thickness = tuple[float, float]
"""Mean and SD [mm]."""


def thicknesses(kind: Over, label: str) -> tuple[Thickness, Thickness]:
    """Firm and loose thickness of a kind before any reading, on a head of that part of the prior.

    Nothing lies on a bare head; where nobody spoke, what the surveys' people of that sex and age
    had on theirs.
    """
    if kind in COVERINGS:
        return _mean_and_sd(COVERINGS[kind].firm), _mean_and_sd(COVERINGS[kind].loose)
    if kind is Over.BARE:
        return (0.0, 0.0), (0.0, 0.0)
    hair, variance = survey_hair(label)
    return (hair / TAPE_LAYERS, sqrt(variance) / TAPE_LAYERS), _mean_and_sd(UNSTATED_LOOSE)


def _mean_and_sd(figure: Figure) -> Thickness:
    return figure.value, figure.spread or 0.0


def weights_over(measure: str, kinds: tuple[Over, ...], touch: Touch) -> dict[str, float]:
    """How many thicknesses of each covering a reading adds, by name in the belief [1].

    Notes
    -----
    A tape goes around: 2 pi of the firm thickness, and as much of the loose one where it was
    light. A caliper goes across: twice the share that its tips leave. A board lies on the firm
    thickness once. Of hair that nobody spoke of only the tape is known to go over it.
    """
    count = measure_of(measure).layer
    found: dict[str, float] = {}
    for kind in kinds:
        if not count or not (kind in COVERINGS or (kind is Over.UNSTATED and measure in GIRTHS)):
            continue
        tip = COVERINGS[kind].caliper.value if count == _CALIPER_LAYERS else 1.0
        found[firm_name(kind)] = count * tip
        if touch is Touch.LIGHT and measure in GIRTHS:
            found[loose_name(kind)] = count
    return found


def nominal_over(measure: str, kinds: tuple[Over, ...], touch: Touch, label: str = "") -> Thickness:
    """Mean and SD [mm] of what coverings add to a reading before anything is read.

    Hair of which nobody spoke counts only where `label` says whose head it is.
    """
    told = tuple(kind for kind in kinds if kind in COVERINGS or label)
    weights = weights_over(measure, told, touch)
    mean = variance = 0.0
    for kind in told:
        names = (firm_name(kind), loose_name(kind))
        for name, (middle, spread) in zip(names, thicknesses(kind, label), strict=True):
            mean += weights.get(name, 0.0) * middle
            variance += (weights.get(name, 0.0) * spread) ** 2
    return mean, sqrt(variance)
