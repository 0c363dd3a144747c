"""Makes the README's pictures from the running game: `python -m tests.pictures`.

Each scene plays the game with keys, in folders of its own and by a clock that moves only when the
scene says so, and its screen is written as SVG to `.pictures/`, with the same bytes every time.
Every cell is drawn as two square pixels, and neighbouring pixels of one colour as one rectangle, so
the cube is exact and the file small whatever fonts the reader has; what is not a block is text.
"""

from __future__ import annotations

import asyncio
import os
import sys
import tempfile
from collections.abc import AsyncIterator, Awaitable, Callable, Iterable
from contextlib import asynccontextmanager
from datetime import timedelta
from html import escape
from pathlib import Path

from pytest import MonkeyPatch
from rich.style import Style
from textual.strip import Strip

from game.cube.moves import parse_line
from game.deal.deal import Kind
from game.deal.selection import FromDeal
from game.folders import Folders
from game.friends.contest import Card, Contest
from game.friends.entry import ContestProgress
from game.keeping import contests, runs
from game.modes import DASH
from game.packs import Puzzle, load_packs, pack_folder, puzzles
from game.play.position import Position
from game.play.result import Result
from game.runs import Run, RunTerms
from game.screens.atlas.screen import AtlasScreen
from game.screens.contests.screen import ContestScreen
from game.screens.contests.standings import StandingsScreen
from game.screens.home.map import MapScreen
from game.screens.lines.columns import PlayerLine
from game.screens.lines.race import RaceScreen
from game.screens.lines.screen import LinesScreen, Page
from game.screens.round.curtain import CurtainScreen
from game.screens.runs.screen import RunScreen
from game.screens.statistics.screen import StatisticsScreen
from game.settings import Settings, save_settings
from tests.many_attempts import DAYS, FIRST_DAY, write
from tests.screens.conftest import Game, QuietApp, StandingClock
from tests.screens.players import solve
from tests.screens.quick import undrawn
from tests.screens.resting import RestingLoop

PICTURES = Path(__file__).parents[1] / ".pictures"
SIZE = (100, 30)
"""Columns and rows of every picture."""
CELL = 10
"""Width of a cell; it is twice as high."""
MARGIN = 16
HABIT, HOOK = "r U R u u r u R", "r b u u B R"
HABIT_LINE, HOOK_LINE = "R U' R' U2 R U R'", "R B U2 B' R'"
"""The same in notation."""

Colour = str
Scene = Callable[[Game, dict[str, Puzzle]], Awaitable[None]]


# -- scenes --------------------------------------------------------------------------------------


async def _open(game: Game, puzzle: Puzzle) -> None:
    """The playing screen at a puzzle, everything found that it waits for."""
    await game.play(puzzle)
    await game.until(lambda: game.sitting.solutions)


async def _turn(game: Game, keys: str, pace: float = 0.6) -> None:
    """Press keys, so many seconds apart."""
    for key in keys.split():
        game.clock.now += pace
        await game.press(key)


async def _played(game: Game, levels: dict[str, Puzzle]) -> None:
    """Four levels of the first pack, the hook first over par and then at par."""
    first = "00-first-turns/"
    for name, keys in (
        ("open-door", "r U R"),
        ("open-door~left-right", "L u l"),
        ("first-handshake", "u L U l"),
        ("other-way-round", HABIT),
        ("other-way-round", HOOK),
    ):
        await _open(game, levels[first + name])
        game.clock.now += 2.3
        await _turn(game, keys)
        await game.until(lambda: game.sitting.outcome == "solved")
        await game.press("escape")


async def home(game: Game, levels: dict[str, Puzzle]) -> None:
    """Home, after the first levels."""
    await _played(game, levels)
    await game.app.go_home()
    await game.until(lambda: game.says("Go on"))


async def level_map(game: Game, levels: dict[str, Puzzle]) -> None:
    """The map of packs, after the first levels."""
    await _played(game, levels)
    await game.app.push_screen(MapScreen(levels["00-first-turns/other-way-round"]))
    await game.until(lambda: game.says("Map of packs"))


async def atlas(game: Game, levels: dict[str, Puzzle]) -> None:
    """The atlas at FR, after the first levels, the hook chosen."""
    await _played(game, levels)
    await game.app.push_screen(AtlasScreen())
    await game.press("a 3")
    await game.until(lambda: game.says("solved, "))


async def playing(game: Game, levels: dict[str, Puzzle]) -> None:
    """In the middle of a level, the pair just joined, the far side beside it."""
    await _open(game, levels["00-first-turns/other-way-round"])
    game.clock.now += 6.4
    await _turn(game, "r b")
    await game.until(lambda: game.says("turns 2"))


async def over_par(game: Game, levels: dict[str, Puzzle]) -> None:
    """Solved over par, with the one fact that is told."""
    await _open(game, levels["00-first-turns/other-way-round"])
    game.clock.now += 4.1
    await _turn(game, HABIT)
    await game.until(lambda: game.says("later than needed"))


async def watching(game: Game, levels: dict[str, Puzzle]) -> None:
    """A solution watched, at the turn that joins the pair."""
    await _open(game, levels["00-first-turns/other-way-round"])
    await game.press("g g")
    await game.until(lambda: game.app.screen.focused is not None)
    await game.press("enter")
    await game.until(lambda: game.says("At the start"))
    await game.press("right right right")
    await game.until(lambda: game.says("The pair joins."))


async def leaning_left(game: Game, levels: dict[str, Puzzle]) -> None:
    """A level whose slot is at the left: the cube leans left, so that its side shows."""
    await _open(game, levels["00-first-turns/open-door~left-right"])
    game.clock.now += 3.2
    await _turn(game, "L")


async def statistics(game: Game, levels: dict[str, Puzzle]) -> None:
    """What made-up attempts of many months come to."""
    write(game.app.folders.records, 4000, different=620)
    last = FIRST_DAY + timedelta(days=DAYS)
    await game.app.push_screen(StatisticsScreen(last.date()))
    await game.until(lambda: game.says("both above"))
    await game.until(lambda: not any(worker.is_running for worker in game.app.workers))


def _tried(position: Position, name: str, line: str, seeing: int, doing: int) -> PlayerLine:
    moves = parse_line(line)
    return PlayerLine(
        position, name, moves, Result(moves, seeing, doing, called=False, solved=True)
    )


def _lines_of_four(levels: dict[str, Puzzle]) -> Page:
    """What four players made of the hook."""
    position = levels["00-first-turns/other-way-round"].position
    entries = (
        _tried(position, "Ada", "R U' R' U2 R U R'", 341, 262),
        _tried(position, "Bo", "R B U2 B' R'", 1207, 198),
        _tried(position, "Cem", "y F R U2 R' F'", 702, 175),
        _tried(position, "Dora", "R U R' F R' F' R2 U R'", 96, 410),
    )
    return Page("Position 2 of 5", position, entries)


async def lines(game: Game, levels: dict[str, Puzzle]) -> None:
    """The lines of four players beside each other, against par."""
    await game.app.push_screen(LinesScreen([_lines_of_four(levels)], onward="next position"))
    await game.until(lambda: game.says("shortest"))
    await game.press("right space right space")


async def race(game: Game, levels: dict[str, Puzzle]) -> None:
    """Two lines watched beside each other, in time."""
    first, second, *_ = _lines_of_four(levels).entries
    await game.app.push_screen(RaceScreen((first, second)))
    await game.settle()
    await game.press("t right right right right right")
    await game.until(lambda: game.says("In time"))


async def flat(game: Game, levels: dict[str, Puzzle]) -> None:
    """The unfolded drawing, with letters."""
    game.app.change_settings(Settings(colours="true", drawing="flat"))
    await _open(game, levels["00-first-turns/other-way-round"])


async def contest(game: Game, levels: dict[str, Puzzle]) -> None:
    """A contest among friends: two positions played, one of them called, the third to come."""
    names = ("open-door", "other-way-round", "first-handshake")
    positions = tuple(levels[f"00-first-turns/{name}"].position for name in names)
    made = Contest("Friday five", positions)
    await game.app.push_screen(ContestScreen(contests.entry_for(game.app.keeper, made)))
    await game.until(lambda: game.says("1 to play"))
    for number, (keys, answer) in enumerate((("r U R", "c"), (HABIT, "enter")), 2):
        await game.press("enter")
        await game.until(lambda: game.says("Space hide"))
        await game.settle()
        game.clock.now += 3.41
        await _turn(game, keys)
        await game.press(answer)
        await game.until(lambda n=number: game.says(f"{n} to play"))
    await game.until(lambda: game.says("+2"))
    await game.press("up")


async def ranking(game: Game, levels: dict[str, Puzzle]) -> None:
    """Standings of cards from a chat, one of which does not hold what it claims."""
    made = Contest("Friday five", (levels["00-first-turns/other-way-round"].position,))
    played = (
        ("Ada", HOOK_LINE, True, 512),
        ("Bo", HOOK_LINE, False, 740),
        ("Cem", HABIT_LINE, True, 398),
        ("Dag", "R U R'", False, 31),
    )
    cards = tuple(
        Card(name, (Result(parse_line(line), 341, doing, called=called, solved=True),))
        for name, line, called, doing in played
    )
    await game.app.push_screen(StandingsScreen(ContestProgress(made), cards))
    await game.until(lambda: game.says("1 right"))


async def _dash(game: Game, paces: Iterable[float], best: Run | None) -> Run:
    """A dash of eight positions, the fifth not by the shortest way."""
    deal = FromDeal(Kind(1))
    entry = runs.begin(game.app.keeper, Run(RunTerms(DASH, 8, deal.text), "picture"))
    screen = RunScreen(entry, deal, best)
    await game.app.push_screen(screen)
    await game.until(lambda: isinstance(game.app.screen, CurtainScreen))
    await game.press("enter")
    for number, pace in enumerate(paces, 1):
        await game.until(lambda at=number: game.says(f"{at} of 8"))  # type: ignore[misc]
        await solve(game, seeing=pace, doing=0.6 * pace, detour="b l B" if number == 5 else "")
    await game.until(lambda: game.says("on the clock") and screen.run_.is_settled)
    return screen.run_


async def timed_run(game: Game, levels: dict[str, Puzzle]) -> None:
    """What a dash of eight came to, beside one before it."""
    best = await _dash(game, (4.2, 2.9, 3.1, 6.4, 2.2, 3.8, 5.1, 2.7), None)
    await _dash(game, (3.1, 3.4, 2.0, 4.9, 2.4, 2.1, 5.6, 1.9), best)


SCENES: dict[str, Scene] = {
    "home": home,
    "map": level_map,
    "atlas": atlas,
    "playing": playing,
    "over-par": over_par,
    "watching": watching,
    "leaning-left": leaning_left,
    "statistics": statistics,
    "timed-run": timed_run,
    "lines": lines,
    "race": race,
    "flat": flat,
    "contest": contest,
    "standings": ranking,
}
"""A picture's file name without its ending -> what leads to it."""


@asynccontextmanager
async def started(folder: Path) -> AsyncIterator[Game]:
    """A game in true colour with nothing recorded yet."""
    folders = Folders(
        folder / "data", folder / "config", Path(tempfile.gettempdir()) / "tables", folder / "state"
    )
    save_settings(folders.settings, Settings(colours="true"))
    clock = StandingClock()
    app = QuietApp(folders, clock=clock)
    app.animation_level = "none"
    async with app.run_test(size=SIZE) as pilot:
        yield Game(app, pilot, clock)


async def strips(scene: Scene) -> list[Strip]:
    """The rows of the screen to which a scene leads."""
    packs, _ = load_packs(pack_folder())
    levels = {puzzle.key: puzzle for pack in packs for puzzle in puzzles(pack)}
    with tempfile.TemporaryDirectory() as folder:
        async with started(Path(folder)) as game:
            await scene(game, levels)
            await game.settle()
            return game.app.screen._compositor.render_strips()


# -- drawing -------------------------------------------------------------------------------------


def svg(rows: Iterable[Strip], ground: Colour, ink: Colour) -> str:
    """The rows as a picture. ground, ink: where a cell names no colour of its own."""
    pixels: list[list[Colour]] = []
    texts: list[str] = []
    for y, strip in enumerate(rows):
        upper: list[Colour] = []
        lower: list[Colour] = []
        for segment in strip:
            style = segment.style or Style()
            fore, back = _colours(style, ground, ink)
            texts += _texts(segment.text, len(upper), y, fore, bold=bool(style.bold))
            for sign in segment.text:
                upper.append(fore if sign == "▀" else back)
                lower.append(fore if sign == "▄" else back)
        pixels += [upper, lower]
    width, height = CELL * len(pixels[0]) + 2 * MARGIN, CELL * len(pixels) + 2 * MARGIN
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}">',
            f'<rect width="{width}" height="{height}" rx="12" fill="{ground}"/>',
            f'<g transform="translate({MARGIN} {MARGIN}) scale({CELL})"'
            ' shape-rendering="crispEdges">',
            *(
                f'<rect x="{x}" y="{y}" width="{wide}" height="{high}" fill="{colour}"/>'
                for x, y, wide, high, colour in rectangles(pixels, ground)
            ),
            "</g>",
            f'<g transform="translate({MARGIN} {MARGIN})" font-size="{CELL / 0.6:.1f}" '
            'font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" xml:space="preserve">',
            *texts,
            "</g>",
            "</svg>\n",
        )
    )


def _colours(style: Style, ground: Colour, ink: Colour) -> tuple[Colour, Colour]:
    """What is drawn with and on."""
    fore = style.color.get_truecolor().hex if style.color and not style.color.is_default else ink
    on = style.bgcolor
    back = on.get_truecolor().hex if on and not on.is_default else ground
    return (back, fore) if style.reverse else (fore, back)


def _texts(text: str, column: int, row: int, ink: Colour, *, bold: bool) -> Iterable[str]:
    """The words of a run that are no blocks, each where it stands and as wide as its cells."""
    at = column
    for word in text.replace("▀", " ").replace("▄", " ").split(" "):
        if word:
            weight = ' font-weight="bold"' if bold else ""
            yield (
                f'<text x="{at * CELL}" y="{row * 2 * CELL + 1.5 * CELL:g}" fill="{ink}"{weight}'
                f' textLength="{len(word) * CELL}">{escape(word)}</text>'
            )
        at += len(word) + 1


def rectangles(
    pixels: list[list[Colour]], ground: Colour
) -> Iterable[tuple[int, int, int, int, Colour]]:
    """The pixels as rectangles: left, top, width, height, colour; the ground itself is left out.

    Pixels are put together to the right first, then downwards. A rectangle comes when its last row
    is known, those that end together in the order of their tops, then of their left sides.
    """
    open_: dict[tuple[int, int, Colour], int] = {}
    for y in range(len(pixels) + 1):
        # A dict and not a set: in a set the order would differ from one process to the next.
        spans = dict.fromkeys(_spans(pixels[y], ground) if y < len(pixels) else ())
        for span in [span for span in open_ if span not in spans]:
            top = open_.pop(span)
            x, end, colour = span
            yield (x, top, end - x, y - top, colour)
        for span in spans:
            open_.setdefault(span, y)


def _spans(row: list[Colour], ground: Colour) -> Iterable[tuple[int, int, Colour]]:
    """Neighbouring pixels of one colour, save of the ground: from, to, colour."""
    start = 0
    for x in range(1, len(row) + 1):
        if x == len(row) or row[x] != row[start]:
            if row[start] != ground:
                yield (start, x, row[start])
            start = x


def main() -> int:
    """Make them all, or those named on the command line."""
    os.environ.pop("NO_COLOR", None)
    PICTURES.mkdir(exist_ok=True)
    for name in sys.argv[1:] or SCENES:
        path = PICTURES / f"{name}.svg"
        with MonkeyPatch.context() as patch, asyncio.Runner(loop_factory=RestingLoop) as runner:
            undrawn(patch)
            rows = runner.run(strips(SCENES[name]))
        path.write_text(svg(rows, "#13151c", "#d9dce6"), encoding="utf-8")
        print(f"{path.relative_to(PICTURES.parent)}  {path.stat().st_size / 1000:.0f} kB")
    return 0


if __name__ == "__main__":
    sys.exit(main())
