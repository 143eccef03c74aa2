"""Normal beliefs over named quantities: conditioning, mixtures, draws, joining, suspects."""

from helmwright.belief.blend import blended
from helmwright.belief.join import joined
from helmwright.belief.mixture import Mixture
from helmwright.belief.normal import Normal, UnknownNameError
from helmwright.belief.observation import Observation, exactly
from helmwright.belief.suspect import Residual, leave_one_out, score

__all__ = [
    "Mixture",
    "Normal",
    "Observation",
    "Residual",
    "UnknownNameError",
    "blended",
    "exactly",
    "joined",
    "leave_one_out",
    "score",
]
