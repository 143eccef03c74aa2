"""What a run of the bench is asked for."""

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Plan:
    """What a run is asked for.

    Parameters
    ----------
    quick
        Tiny sizes, to see that everything runs; nothing is kept.
    heads
        Heads per group; each part's own number where None.
    rows
        Folder with individual survey rows; the surveys' published summaries where None.
    seed
        Of every draw.
    """

    quick: bool
    heads: int | None
    rows: Path | None
    seed: int
