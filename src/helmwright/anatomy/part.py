"""What a part of a belief over heads stands for: a sex and, where it matters, an age."""

from helmwright.anatomy.sex import Sex

_AT = " at "


def part_label(sex: Sex, age_years: float | None = None) -> str:
    """Label of a part: "male" for an adult of no stated age, else "male at 12.5"."""
    return sex.value if age_years is None else f"{sex.value}{_AT}{float(age_years)!r}"


def sex_of(label: str) -> Sex:
    """Sex that a part stands for."""
    return Sex(label.partition(_AT)[0])


def age_of(label: str) -> float | None:
    """Age that a part stands for [years]; None for an adult of no stated age."""
    written = label.partition(_AT)[2]
    return float(written) if written else None
