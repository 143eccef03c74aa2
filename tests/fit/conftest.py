"""No test of this room is timed: the first call of a compiled kernel takes a while."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
