"""What drives a chance, in words and as bars: one assumption at a time, from low to high."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median

from helmwright.fit.outlook import Assumption, BuildOutlook, Driver, Proposal, strongest
from helmwright.reports.chances import hundredths, of_hundred, short_hundredths
from helmwright.reports.layout import columns, title, wrapped
from helmwright.sources import Figure
from helmwright.units import inches

TITLE = "What drives this chance"
MARKS, LEAST_MARKS = 20, 9
NAME_WIDTH, CHANCE_WIDTH = 18, 4
SETTINGS_WIDE = 72
"""Width from which on the settings stand beside their bars."""

TOLD = 0.02
"""An assumption that moves the chance by less is only named (assumed)."""
BAR_KEY = "A bar: the chance that it truly fits, from low to high; | as stated."
_SETTINGS = {
    Assumption.LIMITS: "limits of snug {}",
    Assumption.BROW_WINDOW: "brow limits {} at either end",
    Assumption.FOAM: "pads {}",
    Assumption.SURVEY: "the survey of {} alone",
    Assumption.EYEBROW: "eyebrow heights that differ by {} between people",
    Assumption.FRICTION: "a friction coefficient of {}",
    Assumption.STRAP: "a strap {}",
    Assumption.BUMPS: "heads {} bumpy",
    Assumption.INSIDES: "insides that differ {} from the usual",
    Assumption.COVERING: "hair and headwear {} than tabled",
    Assumption.FILL: "air cells filled with {} pressure",
}
_COMPARED = {
    Assumption.LIMITS: ("narrower", "wider"),
    Assumption.FOAM: ("softer", "stiffer"),
    Assumption.STRAP: ("weaker", "stronger"),
    Assumption.BUMPS: ("less", "more"),
    Assumption.INSIDES: ("less", "more"),
    Assumption.COVERING: ("thinner", "thicker"),
    Assumption.FILL: ("less", "more"),
}
"""Of settings that are factors: the words for less and for more."""

_SURVEYED = {
    "us_army_2012": "soldiers",
    "niosh_2003": "workers",
    "snyder_1977": "US children",
    "uk_1990": "UK children",
}


@dataclass(frozen=True, slots=True)
class DriverBar:
    """One assumption as a bar from 0 to 1, whatever it is drawn with.

    Parameters
    ----------
    words
        The assumption by name.
    stated
        The chance as stated [1].
    at_low, at_high
        The chance with the assumption at its low and at its high [1].
    """

    words: str
    stated: float
    at_low: float
    at_high: float

    @property
    def left(self) -> float:
        """Where the bar begins [1]."""
        return min(self.stated, self.at_low, self.at_high)

    @property
    def right(self) -> float:
        """Where the bar ends [1]."""
        return max(self.stated, self.at_low, self.at_high)


def driver_bars(outlook: BuildOutlook) -> tuple[DriverBar, ...]:
    """The bars of one build, the assumption that moves its chance most first."""
    stated = outlook.fits.value
    return tuple(
        DriverBar(
            str(driver.assumption),
            stated,
            _within(stated + driver.fits_low.value),
            _within(stated + driver.fits_high.value),
        )
        for driver in outlook.drivers
    )


def _within(chance: float) -> float:
    return min(max(chance, 0.0), 1.0)


def driver_lines(outlook: BuildOutlook, width: int) -> list[str]:
    """The part of a page that tells what drives a build's chance; empty where nobody counted."""
    if not outlook.drivers:
        return []
    wide = width >= SETTINGS_WIDE
    marks = MARKS if wide else max(LEAST_MARKS, width - NAME_WIDTH - 2 * CHANCE_WIDTH - 3)
    widths = (NAME_WIDTH, marks, CHANCE_WIDTH, CHANCE_WIDTH)
    scale = f"0{'100':>{marks - 1}}"
    pairs = list(zip(driver_bars(outlook), outlook.drivers, strict=True))
    shown = [(bar, driver) for bar, driver in pairs if bar.right - bar.left >= TOLD]
    told = [driver for _, driver in shown]
    settings = _standings(told) if wide or not told else ranges_words(told)
    key = f"{BAR_KEY} {settings}".strip()
    return [
        *title(TITLE, width),
        *([] if strongest(outlook.drivers) else wrapped(strongest_words(outlook), width)),
        columns(("Assumption", scale, " low", "high", _settings_head(told, wide=wide)), widths),
        *(_line(bar, driver, widths, wide=wide) for bar, driver in shown),
        *_little([bar for bar, _ in pairs if bar.right - bar.left < TOLD], width),
        *wrapped(key, width),
    ]


def _line(bar: DriverBar, driver: Driver, widths: tuple[int, int, int, int], *, wide: bool) -> str:
    low, high = (f"{short_hundredths(at):>{CHANCE_WIDTH}}" for at in (bar.at_low, bar.at_high))
    ends = ", ".join(_value(driver, side) for side in (driver.low, driver.high))
    cells = (bar.words, drawn_bar(bar, widths[1]), low, high, *([ends] if wide else []))
    return columns(cells, widths)


def _little(bars: Sequence[DriverBar], width: int) -> list[str]:
    """Those that hardly move the chance, by name."""
    named = ", ".join(bar.words for bar in bars)
    return wrapped(f"By under {100 * TOLD:.0f} of 100: {named}.", width) if bars else []


def _settings_head(drivers: Sequence[Driver], *, wide: bool) -> str:
    """The heading of the settings: assumed, unless a published one stands among them."""
    if not wide:
        return ""
    assumed = all(map(_standing, drivers))
    return "low, high (assumed)" if assumed else "low, high"


def _standings(drivers: Iterable[Driver]) -> str:
    """Which of the settings beside the bars are assumed."""
    published = [str(each.assumption) for each in drivers if not _standing(each)]
    if not published:
        return ""
    named = " and the ".join(published)
    return f"Low and high are assumed, but for the {named}: published tables."


def drawn_bar(bar: DriverBar, marks: int) -> str:
    """So many marks for 0 to 1: "=" where the chance can be, "|" where it is stated."""

    def place(chance: float) -> int:
        return min(int(chance * marks), marks - 1)

    drawn = ["."] * marks
    for at in range(place(bar.left), place(bar.right) + 1):
        drawn[at] = "="
    drawn[place(bar.stated)] = "|"
    return "".join(drawn)


def strongest_words(outlook: BuildOutlook) -> str:
    """The assumption that moves the chance most, in a sentence."""
    driver = strongest(outlook.drivers)
    if driver is None:
        return (
            "No single assumption, from its low to its high, moves the chance that this build"
            " truly fits enough to be told from nothing."
        )
    stated = outlook.fits.value
    low, high = _sides(driver)
    at = [of_hundred(_within(stated + s.value)) for s in (driver.fits_low, driver.fits_high)]
    return (
        f"Most hangs on the {driver.assumption}{_standing(driver)}: with {low} it would fit {at[0]}"
        f" heads, with {high} {at[1]}, instead of {hundredths(stated)}."
    )


def strongest_short(outlook: BuildOutlook) -> str:
    """The same in a few words, for a cell: "hair layer (assumed), up to 9"; else nothing."""
    driver = strongest(outlook.drivers)
    if driver is None:
        return ""
    change = 100 * abs(driver.largest.value)
    return f"{driver.assumption}{_standing(driver)}, up to {change:.0f}"


def ranges_words(drivers: Iterable[Driver]) -> str:
    """What each assumption is set to, and which of the settings are assumed."""
    assumed: list[str] = []
    published: list[str] = []
    for driver in drivers:
        (assumed if _standing(driver) else published).append(_both(driver))
    words = f"Low and high, all assumed: {'; '.join(assumed)}."
    return f"{words} From published tables: {'; '.join(published)}." if published else words


def most_hangs_on(proposals: Iterable[Proposal]) -> str:
    """Which assumption moves most of a roster's chances most; empty where nobody counted."""
    counted = [each.ranked[0] for each in proposals if each.ranked[0].drivers]
    told = [driver for each in counted if (driver := strongest(each.drivers)) is not None]
    if not told:
        return ""
    ((first, times),) = Counter(driver.assumption for driver in told).most_common(1)
    those = [driver for driver in told if driver.assumption is first]
    change = 100 * median(abs(driver.largest.value) for driver in those)
    return (
        f"What moves these chances most is, for {times} of {len(counted)} players, the"
        f" {first}{_standing(those[0])}: {_both(those[0])} would change them by up to some"
        f" {change:.0f} of 100."
    )


def _both(driver: Driver) -> str:
    """Its low and its high in one breath."""
    low, high = (_value(driver, side) for side in (driver.low, driver.high))
    return _SETTINGS[driver.assumption].format(f"{low} or {high}")


def _sides(driver: Driver) -> tuple[str, str]:
    """Its low and its high in words."""
    words = _SETTINGS[driver.assumption]
    return words.format(_value(driver, driver.low)), words.format(_value(driver, driver.high))


def _value(driver: Driver, side: Figure) -> str:
    """What an assumption is set to on one side."""
    if driver.assumption is Assumption.SURVEY:
        return _SURVEYED[side.source.key]
    if driver.assumption is Assumption.BROW_WINDOW:
        return f"{inches(abs(side.value), mark=' in')} {'narrower' if side.value < 0 else 'wider'}"
    if driver.assumption in _COMPARED:
        less, more = _COMPARED[driver.assumption]
        return f"{100 * abs(side.value - 1.0):.0f}% {less if side.value < 1.0 else more}"
    return f"{side.value:g} mm" if side.unit == "mm" else f"{side.value:g}"


def _standing(driver: Driver) -> str:
    """That the settings are assumed, where no source gives them."""
    return " (assumed)" if driver.low.source.key == "assumed" else ""
