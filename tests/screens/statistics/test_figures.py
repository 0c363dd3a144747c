"""The figures: what is written on them, and that they fit."""

from __future__ import annotations

from datetime import date

import pytest
from textual.color import Color

from game.cube.pair import SLOTS
from game.draw.palette import contrast
from game.keeping.statistics import KINDS, Statistics, statistics
from game.records import Sums
from game.screens.statistics import charts
from game.screens.statistics.figures import (
    HEAT,
    MEASURES,
    calendar,
    day_text,
    heat_map,
    run_of_days,
    sides,
    strength,
    trends,
)

TODAY = (date(2026, 11, 25) - date(1970, 1, 1)).days
"""A Wednesday."""
GOOD, BAD = Sums(4, 4, 4, 0, 4, 4, 8000, 4, 8000, 20), Sums(4, 4, 4, 8, 0, 4, 32000, 4, 16000, 20)
NOTHING = statistics({}, {})


def found(*days: int) -> Statistics:
    """Something of everything, good at FR and bad at BL."""
    placements = {(KINDS[0], "FR"): GOOD, (KINDS[4], "BL"): BAD}
    played = statistics({}, {(day, 6): GOOD for day in days}).days
    side = {"left": BAD, "back": BAD, "right": GOOD, "front": GOOD}
    return Statistics(GOOD.plus(BAD), placements, {2: BAD}, side, played)


@pytest.mark.parametrize("size", [(44, 9), (27, 9), (69, 19)])
@pytest.mark.parametrize("days", [(), (TODAY,), tuple(range(TODAY - 900, TODAY, 2))])
def test_figures_fit(size: tuple[int, int], days: tuple[int, ...]) -> None:
    """With no day, one or hundreds, nothing is wider or higher than its room."""
    width, rows = size
    stats = found(*days) if days else NOTHING
    figures = [strength(stats.days, width, rows), calendar(stats.days, TODAY, width, rows)]
    figures += [sides(stats, MEASURES[0], width), trends(stats, (400, 900), width, 1)]
    for figure in figures:
        lines = figure.plain.split("\n")
        assert len(lines) <= max(rows, 8)
        assert max(map(len, lines[1:])) <= width + 1


def test_strength_tells_rating_and_days() -> None:
    """The rating with twice its deviation, and the first and the last day played."""
    said = strength(found(TODAY - 60, TODAY).days, 40, 8).plain
    assert "Strength  1" in said
    assert "±" in said
    assert said.endswith("25 Nov 2026")
    assert "26 Sep 2026" in said


def test_no_data_is_said() -> None:
    """With nothing tried the first figure says so and the others are empty frames."""
    assert "Nothing tried yet" in strength((), 40, 8).plain
    assert heat_map(NOTHING, MEASURES[0], 44, 1, rich=True).plain.count("·") == 4 * len(KINDS) + 3


def test_a_day_stands_in_its_row() -> None:
    """Today, a Wednesday, is the last of the third row; days to come are not drawn."""
    lines = calendar(found(TODAY).days, TODAY, 30, 9).plain.split("\n")
    assert lines[3].startswith("We")
    assert lines[3].rstrip().endswith("██")
    assert all("█" not in line for line in lines if not line.startswith("We"))
    assert len(lines[4].rstrip()) == len(lines[3].rstrip()) - 3


def test_more_rows_show_earlier_weeks() -> None:
    """With room for two blocks, a day half a year ago shows too."""
    days = found(TODAY - 140, TODAY).days
    assert calendar(days, TODAY, 30, 9).plain.count("██") == 1
    assert calendar(days, TODAY, 30, 17).plain.count("██") == 2


def test_days_in_a_row() -> None:
    """Counted back from today, or from yesterday while today is not played yet."""
    assert run_of_days({}, 9) == 0
    assert run_of_days(dict.fromkeys((5, 7, 8, 9), 1), 9) == 3
    assert run_of_days(dict.fromkeys((7, 8), 1), 9) == 2
    assert run_of_days(dict.fromkeys((6, 7), 1), 9) == 0


def test_the_heat_map_has_number_and_colour() -> None:
    """Each cell that is known has its number, the least on the darkest ground."""
    content = heat_map(found(TODAY), MEASURES[0], 44, 1, rich=True)
    rows = content.plain.split("\n")
    assert all(slot in rows[1] for slot in SLOTS)
    assert rows[2].split() == ["both", "above", "0.0", "·", "·", "·"]
    assert rows[6].split() == ["one", "astray", "·", "·", "2.0", "·"]
    styles = {content.plain[s.start : s.end].strip(): str(s.style) for s in content.spans}
    assert HEAT[0][0] in styles["0.0"]


@pytest.mark.parametrize("measure", MEASURES)
def test_few_colours_get_shades(measure: object) -> None:
    """Where grounds cannot be told apart a shade stands beside each number."""
    rows = heat_map(found(TODAY), MEASURES[1], 44, 1, rich=False).plain.split("\n")
    assert f"2.0 {charts.SHADES[0]}" in rows[2]
    assert f"8.0 {charts.SHADES[-1]}" in rows[6]


def test_small_differences_stay_small() -> None:
    """What is nearly equal is not shown as far apart as can be."""
    close = {(KINDS[0], "FR"): Sums(10, 10, 10, 10), (KINDS[0], "BL"): Sums(10, 10, 10, 11)}
    stats = Statistics(Sums(), close, {}, {}, ())
    shades = heat_map(stats, MEASURES[0], 44, 1, rich=False).plain
    assert charts.SHADES[-1] not in shades


def test_numbers_can_be_read_on_their_ground() -> None:
    """WCAG 2.2 asks for a contrast of 4.5 for text."""
    for ground, ink in HEAT:
        colours = [Color.parse(name).rgb for name in (ground, ink)]
        assert contrast(*colours) >= 4.5


def test_sides_and_trends_tell_numbers() -> None:
    """Each bar and small chart has its number."""
    said = sides(found(TODAY), MEASURES[0], 30).plain
    assert said.count("2.0") == 2
    assert said.count("0.0") == 2
    said = trends(found(TODAY), (900, 1100), 30, 2).plain
    assert all(word in said for word in ("seeing", "doing", "pace", "pause", "5.0 s", "1.0 s"))
    assert "1.7 /s" in said


def test_days_in_words() -> None:
    """Days count from 1 January 1970."""
    assert day_text(0) == "1 Jan 1970"
    assert day_text(TODAY) == "25 Nov 2026"
