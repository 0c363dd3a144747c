"""Home, and the first minutes that lead to it."""

from __future__ import annotations

import shutil
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from game.folders import Folders
from game.packs import Puzzle, pack_folder
from game.records import open_records
from game.screens.app import PairwrightApp
from game.screens.home.map import MapScreen
from game.screens.home.screen import HomeScreen, today_words
from game.screens.home.settings import SettingsScreen
from game.screens.play.casual import CasualRules, PlayScreen
from game.screens.shared.text_page import FaultsScreen
from tests.records.samples import SAMPLE
from tests.screens.conftest import Game, Start

Shipped = dict[str, Puzzle]
PACK = "00-first-turns"
FIRST, HOOK = f"{PACK}/open-door", f"{PACK}/other-way-round"
OPENING = {
    FIRST: "r U R",
    f"{FIRST}~left-right": "L u l",
    f"{PACK}/first-handshake": "u L U l",
    HOOK: "r b u u B R",
}
"""The puzzles of the first minutes and keys that solve each at par."""


def solve(folders: Folders, *puzzles: Puzzle) -> None:
    """Let a player have solved these, just now, at par."""
    records = open_records(folders.records)
    now = datetime.now().astimezone()
    for puzzle in puzzles:
        text = puzzle.position.text
        records.add(replace(SAMPLE, position=text, puzzle=puzzle.key, began=now))
    records.close()


async def at_home(game: Game) -> HomeScreen:
    """The home screen, filled."""
    await game.until(lambda: isinstance(game.app.screen, HomeScreen) and game.says("Go on"))
    assert isinstance(game.app.screen, HomeScreen)
    return game.app.screen


async def at_play(game: Game, key: str) -> None:
    """Wait until this puzzle is in front, its clock running."""
    await game.until(lambda: isinstance(game.app.screen, PlayScreen))
    await game.until(
        lambda: game.sitting.puzzle.key == key and game.sitting.running_since is not None
    )


async def test_the_first_start_opens_in_the_first_level(start: Start) -> None:
    """With nothing solved the first key pressed is the first turn of the first level."""
    async with start(app_type=PairwrightApp) as game:
        await at_play(game, FIRST)
        await game.press("r")
        assert game.sitting.attempt.turns == 1


async def test_the_first_level_shows_its_keys(start: Start) -> None:
    """Who reads nothing else sees the keys of the turns, and after a wait which to press."""
    async with start(app_type=PairwrightApp) as game:
        await at_play(game, FIRST)
        assert game.says("f b r l u d")
        await game.until(lambda: game.sitting.solutions)
        game.clock.now += 15
        await game.until(lambda: game.says("Try r."))


async def test_the_first_minutes(start: Start) -> None:
    """The opening runs from level to level with Enter, and its end leads to the map."""
    async with start(app_type=PairwrightApp) as game:
        for key, turns in OPENING.items():
            await at_play(game, key)
            await game.press(turns)
            assert game.sitting.outcome == "solved"
            await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, MapScreen))
        await game.until(lambda: game.says("4 of 5") or game.says("3/5"))
        await game.press("q")
        await at_home(game)


async def test_the_hook_asks_for_another_try(
    start: Start, folders: Folders, shipped: Shipped
) -> None:
    """Seven turns where five do: Enter is another try, not the next level."""
    solve(folders, *(shipped[key] for key in OPENING if key != HOOK))
    async with start(app_type=PairwrightApp) as game:
        await at_home(game)
        await game.press("enter")
        await at_play(game, HOOK)
        await game.press("r U R u u r u R")
        await game.until(lambda: game.says("two over par"))
        await game.press("enter")
        await at_play(game, HOOK)
        assert game.sitting.attempt.events == ()


async def test_later_starts_open_at_home(start: Start, folders: Folders, shipped: Shipped) -> None:
    """Once something is solved the game opens at home, and Enter goes on from there."""
    solve(folders, shipped[FIRST])
    async with start(app_type=PairwrightApp) as game:
        await at_home(game)
        assert game.says("Today 1 position solved, 1 at par")
        assert game.says("The Open Door, left-right twin")
        await game.press("enter")
        await at_play(game, f"{FIRST}~left-right")


async def test_an_attempt_in_hand_is_taken_up(
    start: Start, folders: Folders, shipped: Shipped
) -> None:
    """Going on leads to the attempt that was left, whatever level it was of."""
    solve(folders, shipped[FIRST])
    async with start(app_type=PairwrightApp) as game:
        await at_home(game)
        await game.app.push_screen(PlayScreen(CasualRules(shipped[HOOK])))
        await at_play(game, HOOK)
        await game.press("r escape")
        await at_home(game)
        await game.press("enter")
        await at_play(game, HOOK)
        assert game.sitting.attempt.turns == 1


async def test_everything_solved(start: Start, folders: Folders, shipped: Shipped) -> None:
    """When nothing is left, going on leads to the map."""
    solve(folders, *shipped.values())
    async with start(app_type=PairwrightApp) as game:
        await at_home(game)
        assert game.says("every level is solved")
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, MapScreen))


async def test_keys_and_clicks_lead_on(start: Start, folders: Folders, shipped: Shipped) -> None:
    """A key and a click lead to the same screen; q leads back, Escape at home leads nowhere."""
    solve(folders, shipped[FIRST])
    async with start(app_type=PairwrightApp) as game:
        home = await at_home(game)
        await game.press("s")
        await game.until(lambda: isinstance(game.app.screen, SettingsScreen))
        await game.press("q")
        await at_home(game)
        row = next(y for y, text in enumerate(game.rows()) if text.lstrip(" ▸").startswith("s "))
        await game.click(offset=(12, row))
        await game.until(lambda: isinstance(game.app.screen, SettingsScreen))
        await game.press("escape")
        await at_home(game)
        await game.press("escape")
        assert game.app.screen is home
        assert home.focused is not None


async def test_q_leaves_the_game(start: Start, folders: Folders, shipped: Shipped) -> None:
    """At home q ends the game, with exit status 0."""
    solve(folders, shipped[FIRST])
    async with start(app_type=PairwrightApp) as game:
        await at_home(game)
        await game.press("q")
        await game.until(lambda: not game.app.is_running or game.app._exit)
    assert not game.app.return_code


async def test_faulty_packs_can_be_read_about(
    start: Start, folders: Folders, shipped: Shipped, tmp_path: Path
) -> None:
    """A broken pack is told at home, its faults are read with p, and the others are played."""
    packs = tmp_path / "packs"
    packs.mkdir()
    shutil.copy(pack_folder() / f"{PACK}.toml", packs)
    (packs / "broken.toml").write_text('format = 1\ntitel = "Broken"\n', encoding="utf-8")
    solve(folders, shipped[FIRST])
    async with start(app_type=PairwrightApp, packs=packs) as game:
        await at_home(game)
        assert game.says("A pack was left out")
        await game.press("p")
        await game.until(lambda: isinstance(game.app.screen, FaultsScreen))
        await game.until(lambda: game.says('did you mean "title"'))
        await game.press("q enter")
        await at_play(game, f"{FIRST}~left-right")


async def test_a_long_name_stays_on_its_line(
    start: Start, folders: Folders, shipped: Shipped, tmp_path: Path
) -> None:
    """A pack's title of the greatest length is cut at home, not broken into a second line."""
    packs = tmp_path / "packs"
    packs.mkdir()
    text = (pack_folder() / f"{PACK}.toml").read_text(encoding="utf-8")
    text = text.replace('title = "First Turns"', f'title = "{"Long Title " * 5}"')
    (packs / f"{PACK}.toml").write_text(text, encoding="utf-8")
    solve(folders, shipped[FIRST])
    async with start(app_type=PairwrightApp, packs=packs) as game:
        await at_home(game)
        await game.until(lambda: game.says("left-right twin (L"))
        first = next(y for y, row in enumerate(game.rows()) if "Go on" in row)
        assert "Map of packs" in game.rows()[first + 2]


async def test_without_any_pack(start: Start, tmp_path: Path) -> None:
    """Without a pack home says so, and the map is empty but opens and closes."""
    async with start(app_type=PairwrightApp, packs=tmp_path / "nowhere") as game:
        await at_home(game)
        assert game.says("there is no pack to play")
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, MapScreen))
        await game.until(lambda: game.says("No pack can be played"))
        await game.press("enter t left right q")
        await at_home(game)


async def test_damaged_records_are_told(start: Start, folders: Folders) -> None:
    """Records that had to be moved aside are told at home in a line that stays."""
    folders.data.mkdir(parents=True)
    folders.records.write_bytes(b"no database at all" * 100)
    async with start(app_type=PairwrightApp) as game:
        await at_play(game, FIRST)
        await game.press("escape")
        await at_home(game)
        assert game.says("moved aside")


def test_words_of_today() -> None:
    """Today's counts are said in one line."""
    assert today_words(0, 0) == "Nothing solved today yet"
    assert today_words(1, 0) == "Today 1 position solved, 0 at par"
    assert today_words(12, 3) == "Today 12 positions solved, 3 at par"


async def test_what_was_left_is_told(start: Start) -> None:
    """A run or a match that is not over stands under the choice that leads to it."""
    async with start() as game:
        await game.app.push_screen(HomeScreen())
        await game.until(lambda: game.says("Timed runs"))
        assert not game.says("is not over")
        game.app.keeper.records.begin_run("hourglass", "", "")
        game.app.keeper.records.begin_run("match", "", "")
        await game.press("s q")
        await game.until(lambda: game.says("an hourglass is not over"))
        assert game.says("a match is not over")


async def test_whoever_played_anything_starts_at_home(start: Start, folders: Folders) -> None:
    """With no level ever tried but a contest waiting, the game opens at home."""
    records = open_records(folders.records)
    records.begin_run("contest", "", "")
    records.close()
    async with start(app_type=PairwrightApp) as game:
        await at_home(game)
