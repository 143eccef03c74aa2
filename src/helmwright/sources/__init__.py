"""Where every number comes from: source records, and figures that carry one."""

from helmwright.sources.record import Figure, Source, Standing

__all__ = ["Figure", "Source", "Standing"]
