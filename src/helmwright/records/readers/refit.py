"""Why a helmet that somebody holds should be fitted again."""

from collections.abc import Iterator, Mapping
from uuid import UUID

from helmwright.records.models import Issue, Player


def refit_reasons(
    player: Player, issue: Issue, worn_then: Mapping[UUID, tuple[str, ...] | None]
) -> Iterator[str]:
    """What speaks for a new fit check of one held helmet (common practice, no source).

    Parameters
    ----------
    player, issue
        Who holds which, with its season.
    worn_then
        What was to be worn under the helmet when each visit began.
    """
    if issue.season is not None and not issue.season.is_open:
        yield f"fitted for {issue.season.name}, and not since"
    then = worn_then.get(issue.visit_id) if issue.visit_id else None
    now = tuple(player.worn)
    if then and now and set(then) != set(now):
        yield f"worn under it now: {' and '.join(now)}; fitted over {' and '.join(then)}"
