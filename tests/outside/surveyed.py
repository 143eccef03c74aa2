"""Heads as the surveys taped them: the women's over their hair."""

from helmwright.anatomy.covering import survey_hair
from helmwright.belief import Mixture, Normal

GIRTHS = ("head_circumference", "tape_circumference")


def as_surveyed(prior: Mixture, survey: str) -> Mixture:
    """The prior with its circumferences over the hair that it was bared of."""
    parts = tuple(
        _over_hair(part, *survey_hair(label, survey))
        for part, label in zip(prior.parts, prior.labels, strict=True)
    )
    return Mixture(prior.weights, parts, prior.labels)


def _over_hair(part: Normal, mean: float, variance: float) -> Normal:
    for girth in GIRTHS:
        part = part.extended(f"{girth} over hair", {girth: 1.0}, offset=mean, variance=variance)
    others = [name for name in part.names if not name.startswith(GIRTHS)]
    kept = part.marginal([*others, *(f"{girth} over hair" for girth in GIRTHS)])
    return Normal((*others, *GIRTHS), kept.mean, kept.covariance)
