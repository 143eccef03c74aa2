"""What is recorded of a helmet that bears on its issue, gathered from its row and its sheet."""

from helmwright.catalogue import ModelSheet
from helmwright.records.good_to_issue import HelmetFacts
from helmwright.records.models import Helmet


def facts_of(helmet: Helmet, sheet: ModelSheet) -> HelmetFacts:
    """The helmet's own limits and the maker's, so that the strictest can win."""
    intervals = (helmet.interval_months, sheet.recertification_months)
    lives = (helmet.life_years, sheet.life_years)
    return HelmetFacts(
        made_on=helmet.made_on,
        first_certified_on=helmet.first_certified_on,
        recertified_on=helmet.recertified_on,
        intervals_months=tuple(each for each in intervals if each is not None),
        lives_years=tuple(float(each) for each in lives if each is not None),
        hold=helmet.hold,
        retired_on=helmet.retired_on,
    )
