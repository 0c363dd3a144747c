"""A table match through the screen."""

from __future__ import annotations

import re

import pytest

from game.cube.moves import line_text
from game.friends.contest import Contest, Rules
from game.friends.match import Match, begin_match
from game.keeping import matches
from game.modes import MATCH
from game.packs import Puzzle
from game.screens.lines.screen import LinesScreen
from game.screens.match.screen import MatchScreen
from game.screens.round.curtain import CurtainScreen
from game.screens.round.played_once import SHOWN_BEFORE
from game.screens.round.screen import RoundScreen
from tests.screens.conftest import Game, Start

DOOR, MIRRORED = "00-first-turns/open-door", "00-first-turns/open-door~left-right"
"""Both of par 3: R U' R' and L' U L."""
AT_PAR = {DOOR: "r U R", MIRRORED: "L u l"}
OVER = {DOOR: "u r u u R", MIRRORED: "U L u u l"}
"""One turn over par."""
LINES = ("R U' R'", "U R U2 R'")


def begun(
    shipped: dict[str, Puzzle],
    *names: str,
    positions: int = 2,
    by: str = "turns",
    inspection: bool = False,
) -> Match:
    """A match at the first levels."""
    played = tuple(shipped[key].position for key in (DOOR, MIRRORED)[:positions])
    return begin_match(Contest("First turns", played, Rules(by, inspection)), names)


@pytest.fixture
def wall(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Seconds since 1970, moved by a test alone."""
    now = [1_700_000_000]
    monkeypatch.setattr("game.keeping.keeper.Keeper.now", lambda _: now[0])
    return now


async def at_match(game: Game, match: Match) -> MatchScreen:
    """The screen of a match that begins."""
    screen = MatchScreen(match, matches.begin(game.app.keeper, match))
    await game.app.push_screen(screen)
    await game.until(lambda: screen.is_active and game.says("plays"))
    return screen


async def at_cube(game: Game, name: str) -> RoundScreen:
    """The player in turn is handed the keyboard, and the count-down is over."""
    await game.until(lambda: game.says(f"{name} plays. Everyone else looks away."))
    await game.press("enter")
    await game.until(lambda: isinstance(game.app.screen, CurtainScreen) and game.says("three"))
    game.clock.now += 4
    await game.until(lambda: isinstance(game.app.screen, RoundScreen))
    screen = game.app.screen
    assert isinstance(screen, RoundScreen)
    await game.until(lambda: screen.sitting.running_since is not None or screen.rules.inspects)
    return screen


async def back_at_cube(game: Game, name: str) -> RoundScreen:
    """The player in turn goes on with a position that they have seen: nothing is counted down."""
    await game.until(lambda: game.says(f"{name} plays. Everyone else looks away."))
    await game.press("enter")
    await game.until(lambda: isinstance(game.app.screen, RoundScreen))
    screen = game.app.screen
    assert isinstance(screen, RoundScreen)
    await game.until(lambda: screen.sitting.running_since is not None)
    assert game.says(SHOWN_BEFORE)
    return screen


async def plays(
    game: Game, name: str, keys: str, seconds: float = 1, *, calls: bool = True, again: bool = False
) -> None:
    """The player in turn plays their position; where a call is asked for they make none."""
    screen = await (back_at_cube if again else at_cube)(game, name)
    game.clock.now += seconds
    await game.press(keys)
    if calls:
        await game.until(lambda: screen.sitting.is_calling)
        await game.press("enter")
    await game.until(lambda: isinstance(game.app.screen, MatchScreen | LinesScreen))


async def on(game: Game) -> None:
    """From the lines to what comes after."""
    await game.until(lambda: isinstance(game.app.screen, LinesScreen))
    await game.press("enter")
    await game.until(lambda: isinstance(game.app.screen, MatchScreen))


def table(game: Game) -> list[list[str]]:
    """The words of the players' rows."""
    words = [re.sub(r"[▸│▁-█]", " ", row).split() for row in game.rows()]
    return [row for row in words if set(row) & {"Ada", "Bo", "Cem"} and "looks" not in row]


def pointed(game: Game) -> str:
    """The name in the row that is marked."""
    (row,) = (row for row in game.rows() if "▸" in row)
    return re.sub(r"[▸\d]", " ", row).split()[0]


async def test_a_match_to_its_end(start: Start, shipped: dict[str, Puzzle]) -> None:
    """Two players, two positions: turns, lines beside each other, and who has won."""
    async with start() as game:
        await at_match(game, begun(shipped, "Ada", "Bo"))
        await plays(game, "Ada", AT_PAR[DOOR])
        assert table(game) == [["Ada", "played"], ["Bo", "plays", "now"]]
        assert pointed(game) == "Bo"
        await plays(game, "Bo", OVER[DOOR], 2)
        await game.until(lambda: game.says("Position 1 of 2") and game.says("turns 3 par 4 +1"))
        assert game.says("seeing 1.00 2.00")
        await on(game)
        await game.until(lambda: game.says("position 2 of 2, by turns"))
        assert table(game) == [
            ["1", "Ada", "3", "par", "1.00", "1/1", "waits"],
            ["2", "Bo", "4", "+1", "2.00", "1/1", "plays", "now"],
        ]
        assert pointed(game) == "Bo"
        await plays(game, "Bo", AT_PAR[MIRRORED])
        await plays(game, "Ada", AT_PAR[MIRRORED])
        await on(game)
        await game.until(lambda: game.says("Ada wins"))
        assert [row[:3] for row in table(game)[-2:]] == [["1", "Ada", "6"], ["2", "Bo", "7"]]
        assert game.app.keeper.records.open_runs() == ()
        await game.press("enter")
        await game.until(lambda: game.says("Position 2 of 2") and game.says("n next position"))
        await game.press("q q")
        await game.until(lambda: not isinstance(game.app.screen, MatchScreen | LinesScreen))


async def test_nobody_sees_a_line_too_early(start: Start, shipped: dict[str, Puzzle]) -> None:
    """Until the last has played, no screen, no key and no record shows what another has done."""
    async with start() as game:
        match = await at_match(game, begun(shipped, "Ada", "Bo", "Cem"))
        position = match.match.contest.positions[0]
        await plays(game, "Ada", OVER[DOOR], 7)
        await game.press("l")
        assert game.app.screen is match
        assert not any(line in " ".join(game.rows()) for line in LINES)
        assert not game.says("7.00") and not game.says("l lines")
        screen = await at_cube(game, "Bo")
        await game.press("right left backspace 0 h")
        assert screen.sitting.attempt.line == () and screen.sitting.attempt.undone == ()
        assert not any(line in " ".join(game.rows()) for line in LINES)
        assert not game.says("best") and not game.says("par ")
        records = game.app.keeper.records
        assert records.best(position.text) is None and records.in_hand(position.text) is None
        assert records.bests() == {}
        await game.press(AT_PAR[DOOR])
        await game.until(lambda: screen.sitting.is_calling)
        assert not game.says("4")


async def test_a_player_leaves(start: Start, shipped: dict[str, Puzzle]) -> None:
    """x, asked twice, lets the marked player go: they are passed over, what they played stays."""
    async with start() as game:
        screen = await at_match(game, begun(shipped, "Ada", "Bo", "Cem"))
        await plays(game, "Ada", AT_PAR[DOOR])
        await game.press("x")
        assert game.says("x again: Bo leaves for good") and not screen.match.players[1].left
        await game.press("up x down x x")
        assert screen.match.players[1].left and not screen.match.players[0].left
        await plays(game, "Cem", OVER[DOOR])
        await game.until(lambda: game.says("Ada Cem"))
        await on(game)
        await game.until(lambda: any(row[-1] == "left" for row in table(game)))
        assert table(game)[-1] == ["3", "Bo", "-", "-", "0/1", "left"]
        await game.press("end x")
        assert game.says("Bo has left already.")


async def test_the_last_to_play_leaves(start: Start, shipped: dict[str, Puzzle]) -> None:
    """When the one who was waited for leaves, the lines of the others are shown at once."""
    async with start() as game:
        await at_match(game, begun(shipped, "Ada", "Bo"))
        await plays(game, "Ada", AT_PAR[DOOR])
        await game.until(lambda: game.says("Bo plays"))
        await game.press("x x")
        await game.until(lambda: isinstance(game.app.screen, LinesScreen) and game.says("Ada"))
        assert not game.says("Bo")


async def test_a_match_waits_and_is_gone_on_with(start: Start, shipped: dict[str, Puzzle]) -> None:
    """Begun anew, the game finds the match as it was; turns of a position left in it are lost."""
    async with start() as game:
        await at_match(game, begun(shipped, "Ada", "Bo", "Cem"))
        await plays(game, "Ada", AT_PAR[DOOR], 1.239)
        await game.press("down x x")
        await at_cube(game, "Bo")
        await game.press("u r")
    async with start() as game:
        ((number, match),) = matches.open_matches(game.app.keeper)
        assert [player.left for player in match.players] == [False, False, True]
        (result,) = match.players[0].results
        assert (line_text(result.line), result.seeing, result.solved) == ("R U' R'", 123, True)
        await game.app.push_screen(MatchScreen(match, number))
        await plays(game, "Bo", AT_PAR[DOOR], again=True)
        await game.until(lambda: game.says("Ada Bo"))
        kept = game.app.keeper.records.attempts_of(number)
        assert [(k.player, k.mode, k.outcome) for k in kept] == [
            ("Ada", MATCH, "solved"), ("Bo", MATCH, "solved"),
        ]  # fmt: skip


async def test_left_in_the_middle(
    start: Start, shipped: dict[str, Puzzle], wall: list[int]
) -> None:
    """Whoever leaves their position begins it again, its clock having run on meanwhile."""
    async with start() as game:
        await at_match(game, begun(shipped, "Ada", "Bo"))
        await at_cube(game, "Ada")
        await game.press("u q")
        assert game.says("you can come back to this position, but its clock runs on.")
        await game.press("q")
        await game.until(lambda: game.says("This position was left: its clock runs on meanwhile."))
        wall[0] += 60
        screen = await back_at_cube(game, "Ada")
        assert screen.sitting.attempt.events == ()
        assert screen.sitting.ms(game.clock.now) == 60_000


async def test_no_second_inspection(
    start: Start, shipped: dict[str, Puzzle], wall: list[int]
) -> None:
    """Whoever ends the game during inspection plays on without, the time since on their clock."""
    async with start() as game:
        await at_match(game, begun(shipped, "Ada", "Bo", by="time", inspection=True))
        screen = await at_cube(game, "Ada")
        assert screen.rules.inspects
    wall[0] += 40
    async with start() as game:
        ((number, match),) = matches.open_matches(game.app.keeper)
        await game.app.push_screen(MatchScreen(match, number))
        await plays(game, "Ada", AT_PAR[DOOR], 2, calls=False, again=True)
        screen = await at_cube(game, "Bo")
        assert screen.rules.round.inspects
        (result,) = matches.open_matches(game.app.keeper)[0][1].players[0].results
        assert (result.seeing, result.inspection) == (4200, 0)


async def test_behind_the_curtain_nothing_is_seen(start: Start, shipped: dict[str, Puzzle]) -> None:
    """Whoever leaves while it is counted down has the position before them as new."""
    async with start() as game:
        screen = await at_match(game, begun(shipped, "Ada", "Bo"))
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, CurtainScreen))
        await game.press("q")
        await game.until(lambda: game.app.screen is screen)
        assert screen.match.shown is None and not game.says("was left")


async def test_given_up(start: Start, shipped: dict[str, Puzzle]) -> None:
    """Who gives up has not solved the position, and comes after all who have."""
    async with start() as game:
        await at_match(game, begun(shipped, "Ada", "Bo", positions=1))
        await plays(game, "Ada", "u g g", calls=False)
        await plays(game, "Bo", OVER[DOOR], 99)
        await game.until(lambda: game.says("turns DNF 4"))
        await on(game)
        await game.until(lambda: game.says("Bo wins"))


async def test_by_time_with_a_tie(start: Start, shipped: dict[str, Puzzle]) -> None:
    """By time nobody is asked for a call, and equal times share the place."""
    async with start() as game:
        await at_match(game, begun(shipped, "Ada", "Bo", "Cem", positions=1, by="time"))
        for name, seconds in (("Ada", 2), ("Bo", 3), ("Cem", 2)):
            await plays(game, name, AT_PAR[DOOR], seconds, calls=False)
        await on(game)
        await game.until(lambda: game.says("Ada and Cem share the first place"))
        assert [row[0] for row in table(game)[-3:]] == ["1", "1", "3"]


async def test_a_right_call_is_counted(start: Start, shipped: dict[str, Puzzle]) -> None:
    """Whoever calls rightly has the credit, in the lines and in the table."""
    async with start() as game:
        await at_match(game, begun(shipped, "Ada", "Bo", positions=1))
        screen = await at_cube(game, "Ada")
        await game.press(AT_PAR[DOOR])
        await game.until(lambda: screen.sitting.is_calling)
        await game.press("c")
        await plays(game, "Bo", AT_PAR[DOOR])
        await game.until(lambda: game.says("called rightly"))
        await on(game)
        await game.until(lambda: any("1/1" in row and "Ada" in row for row in table(game)))
        assert table(game)[-2][-1] == "1/1"


async def test_without_records(start: Start, shipped: dict[str, Puzzle]) -> None:
    """A match whose records cannot be kept is played all the same."""
    async with start() as game:
        screen = MatchScreen(begun(shipped, "Ada", "Bo", positions=1), None)
        await game.app.push_screen(screen)
        await plays(game, "Ada", AT_PAR[DOOR])
        await game.press("up x x")
        await plays(game, "Bo", AT_PAR[DOOR])
        await on(game)
        await game.until(lambda: game.says("wins") or game.says("share"))


async def test_eight_players_in_a_small_window(start: Start, shipped: dict[str, Puzzle]) -> None:
    """At 60x20 all eight rows stand in the window, states and all."""
    eight = ("Ada", "Bo", "Cem", "Dora", "Emil", "Fay", "Gus", "Halima the Long-Named")
    async with start(size=(60, 20)) as game:
        await at_match(game, begun(shipped, *eight))
        await game.until(lambda: len(seated(game)) == len(eight))
        assert [words[0] for words in seated(game)] == [name.split()[0] for name in eight]
        assert seated(game)[0][1:] == ["plays", "now"]


def seated(game: Game) -> list[list[str]]:
    """The words of rows that tell what a player does now."""
    rows = [re.sub(r"[▸│▁-█]", " ", row).split() for row in game.rows()]
    return [row for row in rows if row and row[-1] in ("now", "waits")]


async def test_another_window_looks_on(
    start: Start, shipped: dict[str, Puzzle], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A match that another process plays is seen, not played, until that process has ended."""
    taken = [False]
    monkeypatch.setattr("game.keeping.keeper.Keeper.take", lambda *_: taken[0])
    async with start() as game:
        match = begin_match(Contest("", (shipped[DOOR].position,)), ["Ada", "Bo"])
        number = matches.begin(game.app.keeper, match)
        screen = MatchScreen(match, number)
        await game.app.push_screen(screen)
        await game.until(lambda: game.says("Another window plays this match."))
        await game.press("enter")
        assert game.app.screen is screen
        assert not screen.check_action("go", ()) and not screen.check_action("leave", ())
        taken[0] = True
        await game.until(lambda: not game.says("Another window"))
        assert screen.check_action("go", ())
