"""The source records, one for each place that a number of this project came from."""

from helmwright.sources.record import Source, Standing

ASSUMED = Source(
    key="assumed",
    citation="Assumed by this project; no published value was found.",
    standing=Standing.ASSUMED,
    note="Shown as assumed wherever a person reads a result that leans on it.",
)

COMMON_PRACTICE = Source(
    key="common_practice",
    citation="Common practice of equipment rooms; no source.",
    standing=Standing.COMMON_PRACTICE,
)

INVENTED = Source(
    key="invented",
    citation="Invented for the demonstration; describes nothing on sale and nobody alive.",
    standing=Standing.INVENTED,
)
