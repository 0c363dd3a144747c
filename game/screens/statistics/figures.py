"""The figures of the statistics: each a `Content` as wide and high as it is told. Pure.

Where the terminal has few colours or none, shades say what colours say elsewhere; numbers stand
beside them always.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from statistics import median

from textual.content import Content

from game.cube.pair import SLOTS
from game.keeping.statistics import KINDS, SIDES, Day, Statistics, doing, over, pace, seeing, series
from game.records.record import Sums
from game.screens.statistics import charts

Part = str | tuple[str, str]
Parts = list[Part]

MUTED, STRONG, VALUE = "$muted", "bold", "$accent"


@dataclass(frozen=True)
class Measure:
    """What the heat map and the bars show: its name and unit, and how it is written."""

    name: str
    of: Callable[[Sums], float | None]
    unit: str

    def text(self, value: float | None) -> str:
        """The number, without its unit."""
        return "·" if value is None else f"{value:.1f}" if value < 99.95 else f"{value:.0f}"


MEASURES = (
    Measure("Turns over par", over, ""),
    Measure("Seeing time", seeing, "s"),
    Measure("Doing time", doing, "s"),
)
HEAT = (
    ("#262a44", "#ffffff"),
    ("#434680", "#ffffff"),
    ("#6663a8", "#ffffff"),
    ("#9c97e2", "#13151c"),
    ("#d3d0ff", "#13151c"),
)
"""Ground and ink of each step, from the least to the most: one hue, ever lighter."""
LEAST_SPREAD = 1.5
"""The lightest shade is at least this much more than the darkest: small differences stay small."""
LABEL = 15
"""Columns of what stands before a row."""
WIDE = 78
LEAST_CELL = 5
"""Columns of a cell: a number, a space and a shade."""
BLOCK = 8
"""Rows of a block of weeks: seven days, and the days at both ends."""
SEVERAL = {2: "two", 3: "three", 4: "four"}


def day_text(day: int) -> str:
    """A day as it is written on an axis: "25 Nov 2026"."""
    told = date(1970, 1, 1) + timedelta(days=day)
    return f"{told.day} {told:%b %Y}"


def counts(whole: Sums, width: int) -> str:
    """How many attempts there are; how many of them count only where there is room to say it."""
    tried = "1 attempt" if whole.tried == 1 else f"{whole.tried:,} attempts"
    fair = f", {whole.fair:,} solved without help" if width >= WIDE else ""
    return f"{tried}{fair}, {whole.at_par:,} at par"


# -- strength ------------------------------------------------------------------------------------


def strength(days: Sequence[Day], width: int, rows: int) -> Content:
    """The rating in the course of the days played: heading, columns, the days at both ends."""
    if not days:
        return _lines([[("Strength", STRONG)], [(EMPTY, MUTED)]])
    now = days[-1].strength
    values = series(days, width, lambda day: day.strength.rating)
    low, high = charts.bounds(values)
    floor = low - max(50.0, (high - low) / 6)
    drawn = charts.columns(values, max(1, rows - 2), width, floor, high)
    least, most = charts.bounds([day.strength.rating for day in days])
    heading: Parts = [
        ("Strength  ", STRONG),
        (f"{now.rating:.0f}", VALUE),
        (f" ±{2 * now.deviation:.0f}   from {least:.0f} to {most:.0f}", MUTED),
    ]
    first, last = day_text(days[0].day), day_text(days[-1].day)
    end = len(charts.stretched(values, width))
    axis = first if len(days) == 1 else f"{first}{last:>{max(len(last) + 2, end - len(first))}}"
    return _lines([heading, *([(row, VALUE)] for row in drawn), [(axis, MUTED)]])


EMPTY = "Nothing tried yet"


# -- days played ---------------------------------------------------------------------------------


def calendar(days: Sequence[Day], today: int, width: int, rows: int) -> Content:
    """The last weeks as columns of seven days, Monday first; how much was tried as a shade.

    Where there are rows enough, earlier weeks stand above.
    """
    tried = {day.day: day.sums.tried for day in days}
    heading: Parts = [
        ("Played  ", STRONG),
        ("1 day" if len(days) == 1 else f"{len(days)} days", VALUE),
    ]
    running = run_of_days(tried, today)
    if running > 1:
        heading.append((f", {running} running", MUTED))
    weeks = max(1, (width - 4) // 2)
    blocks = max(1, (rows - 1) // BLOCK)
    monday = today - (today + 3) % 7  # 1 January 1970 was a Thursday
    first = monday - 7 * (weeks * blocks - 1)
    most = max((n for day, n in tried.items() if day >= first), default=1)
    lines: list[Parts] = [heading]
    for block in range(blocks):
        start = first + 7 * weeks * block
        for weekday, name in enumerate(("Mo", "Tu", "We", "Th", "Fr", "Sa", "Su")):
            row: Parts = [(f"{name}  ", MUTED)]
            for day in range(start + weekday, start + 7 * weeks, 7):
                row.append(_day_cell(tried.get(day, 0), most) if day <= today else "  ")
            lines.append(row)
        ends = day_text(start), day_text(min(today, start + 7 * weeks - 1))
        lines.append([(f"    {ends[0]}{ends[1].rjust(2 * weeks - len(ends[0]))}", MUTED)])
    return _lines(lines)


def _day_cell(tried: int, most: int) -> Part:
    if not tried:
        return (f"{charts.SHADES[0]} ", "$rule")
    shade = 1 + min(charts.STEPS - 2, (charts.STEPS - 1) * tried // (most + 1))
    return (2 * charts.SHADES[shade], VALUE)


def run_of_days(tried: Mapping[int, int], today: int) -> int:
    """How many days in a row were played up to today, or up to yesterday."""
    day = today if today in tried else today - 1
    count = 0
    while day - count in tried:
        count += 1
    return count


# -- the heat map --------------------------------------------------------------------------------


def heat_map(found: Statistics, measure: Measure, width: int, tall: int, *, rich: bool) -> Content:
    """Kinds of placement by slots, then positions of several pairs.

    tall: rows of a cell. rich: there are colours enough for the cells' grounds; otherwise a shade
    stands beside each number.
    """
    cell = max(LEAST_CELL, (width - LABEL) // len(SLOTS))
    unit = f", in {measure.unit}" if measure.unit else ""
    lines: list[Parts] = [[(measure.name, STRONG), (f"{unit}, by where the pair lies", MUTED)]]

    def rows(names: Sequence[str], table: Mapping[str, charts.Values], hint: str = "") -> None:
        low, high = charts.bounds([value for values in table.values() for value in values])
        ends = low, max(high, LEAST_SPREAD * low)
        lines.append([(f"{hint:<{LABEL}}", MUTED), *((f"{name:^{cell}}", MUTED) for name in names)])
        for label, values in table.items():
            lines.append(
                [f"{label:<{LABEL}}", *(_cell(v, measure, ends, cell, rich) for v in values)]
            )
            blank = [_cell(v, None, ends, cell, rich) for v in values]
            lines.extend([" " * LABEL, *blank] for _ in range(tall - 1))

    hint = "lighter is more" if rich else "darker is more"
    placed = {key: measure.of(sums) for key, sums in found.placements.items()}
    rows(SLOTS, {kind: [placed.get((kind, slot)) for slot in SLOTS] for kind in KINDS}, hint)
    more = {count: measure.of(sums) for count, sums in found.several.items()}
    rows(tuple(SEVERAL.values()), {"pairs at once": [more.get(count) for count in SEVERAL]})
    return _lines(lines)


def _cell(
    value: float | None,
    measure: Measure | None,
    ends: tuple[float, float],
    width: int,
    rich: bool,
) -> Part:
    """A cell: its number, unless there is no measure to write it, and its shade."""
    text = measure.text(value) if measure else ""
    if value is None:
        return (f"{text:^{width}}", MUTED)
    step = charts.step(value, *ends)
    if rich:
        ground, ink = HEAT[step]
        return (f"{text:^{width}}", f"{ink} on {ground}")
    return f"{f'{text} {charts.SHADES[step]}' if text else '':^{width}}"


# -- bars and trends -----------------------------------------------------------------------------


def sides(found: Statistics, measure: Measure, width: int) -> Content:
    """Left against right, front against back, by the measure."""
    values = {side: measure.of(found.sides.get(side, Sums())) for side in SIDES}
    _, high = charts.bounds(list(values.values()))
    lines: list[Parts] = [[(measure.name, STRONG), (" by side", MUTED)]]
    for side in SIDES:
        value = values[side]
        room = max(4, width - 13)
        drawn = "" if value is None else charts.bar(value, high, room)
        row: Parts = [(f"{side:<7}", MUTED), (f"{drawn:<{room}}", VALUE)]
        lines.append([*row, f"{_with_unit(measure.text(value), measure.unit):>6}"])
    return _lines(lines)


def trends(found: Statistics, pauses: Sequence[int], width: int, rows: int) -> Content:
    """Seeing against doing, both in the course of time, turns a second, pauses between pairs.

    rows: lines of each small chart.
    """
    room = max(4, width - 14)
    saw, did = seeing(found.whole), doing(found.whole)
    lines: list[Parts] = [[("Seeing", "bold $accent"), (" and ", MUTED), ("doing", STRONG)]]
    if saw is not None and did is not None:
        left = max(1, min(width - 1, round(width * saw / (saw + did)))) if saw + did else width // 2
        lines.append([("█" * left, VALUE), ("▒" * (width - left), MUTED)])
    for label, measure, unit in (
        ("seeing", seeing, "s"),
        ("doing", doing, "s"),
        ("pace", pace, "/s"),
    ):
        values = series(found.days, room, partial(_of_day, measure))
        value = measure(found.whole)
        lines += _trend(label, values, rows, room, _number(value, unit))
    high = 4 * median(pauses) if pauses else 0
    counts = charts.histogram(pauses, min(room, 24), high) if high else ()
    lines += _trend(
        "pause", counts, rows, room, _number(median(pauses) / 1000 if pauses else None, "s")
    )
    return _lines(lines)


def _of_day(measure: Callable[[Sums], float | None], day: Day) -> float | None:
    return measure(day.sums)


def _trend(label: str, values: charts.Values, rows: int, room: int, now: str) -> list[Parts]:
    """A label, a small chart from nought, and a number."""
    _, high = charts.bounds(values)
    drawn = charts.columns(values, rows, room, 0, high)
    last = len(drawn) - 1
    return [
        [
            (f"{label if at == last else '':<7}", MUTED),
            (row, VALUE),
            f"{now if at == last else '':>7}",
        ]
        for at, row in enumerate(drawn)
    ]


def _number(value: float | None, unit: str) -> str:
    return "·" if value is None else _with_unit(f"{value:.1f}", unit)


def _with_unit(text: str, unit: str) -> str:
    return f"{text} {unit}".strip()


def _lines(lines: Sequence[Sequence[Part]]) -> Content:
    return Content("\n").join(Content.assemble(*line) for line in lines)
