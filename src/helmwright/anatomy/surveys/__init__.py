"""Published summary tables that the package carries, and which pairs rest on what."""

from helmwright.anatomy.surveys.standing import PairStanding, pair_standing
from helmwright.anatomy.surveys.table import SurveyTable, survey_table

__all__ = ["PairStanding", "SurveyTable", "pair_standing", "survey_table"]
