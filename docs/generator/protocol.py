"""The page of the protocol: checks with sources, how parts are changed, what ends a visit."""

from docs.generator.markdown import document, table
from helmwright.catalogue.changing import PartKind
from helmwright.reports.protocol_page import STAGES
from helmwright.visit.changing import usual_steps
from helmwright.visit.check import Check, Stage
from helmwright.visit.protocol import POINTS, usual_protocol
from helmwright.visit.sub_scores import MAPPING_ASSUMED

INTRODUCTION = """\
What is asked at a fit visit, in working order, before the model sheet has its say: the maker's
instructions on the sheet stand in the place of the usual criterion and are shown as the maker's;
a zone without a pad is not asked about. Sources stand on the page of [sources](sources.md) by
their key; "common practice, no source" is what equipment rooms do. A program may use
[a file of its own](../how-to/write-your-own-protocol.md). A trained person decides on the head;
nothing here is a safety score."""

SCORES = f"""\
## Scores

Each check feeds one of five scores: stability, snugness, size, integrity, accessory (their names:
lininger_2021). {MAPPING_ASSUMED} There is no total: a single sum over such checks was found to
mislead."""

CHANGING = """\
## How parts are changed

Shown at the moment of a change. The sheet's own steps, under `[[changing]]`, go before these."""


def page() -> str:
    """Every check, stage by stage; the steps for every kind of part; the symptoms."""
    usual = usual_protocol()
    stages = [_stage(stage, usual.stage(stage)) for stage in Stage]
    symptoms = table(("word", "meaning"), ((each.word, each.says) for each in usual.symptoms))
    ends = f"## What ends a visit\n\n{usual.symptom_stop}\n\n{symptoms}"
    steps = [_steps(kind) for kind in PartKind]
    return document("The usual protocol", INTRODUCTION, *stages, ends, SCORES, CHANGING, *steps)


def _stage(stage: Stage, checks: tuple[Check, ...]) -> str:
    rows = (
        (
            f"**{check.title}** (`{check.key}`)",
            _plain(" ".join(check.how)),
            _plain(check.accept) + (f" _{_plain(check.differs)}_" if check.differs else ""),
            _answers(check),
            f"{check.source}; {check.sub_score}",
            ", ".join(sorted(check.repeat_after)),
        )
        for check in checks
    )
    heads = ("check", "how", "right", "answers", "source; score", "again after a change of")
    return f"## {STAGES[stage]}\n\n{table(heads, rows)}"


def _answers(check: Check) -> str:
    bad = [
        f"**{each.word}**: {_plain(each.says)} {_plain(each.points_to)}".strip()
        if each.points_to
        else f"**{each.word}**"
        for each in check.answers
    ]
    cure = f" On the spot: {_plain(check.put_right)}" if check.put_right else ""
    return "; ".join(bad) + cure


def _steps(kind: PartKind) -> str:
    rows = ((step.says, step.source) for step in usual_steps()[kind])
    return f"### {kind.capitalize()}\n\n{table(('step', 'source'), rows)}"


def _plain(text: str) -> str:
    """The text with the strap's points counted as on a sheet that names no strap."""
    return text.replace(POINTS, "four or six")
