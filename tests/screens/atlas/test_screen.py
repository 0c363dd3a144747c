"""The atlas, by its keys and the mouse."""

from __future__ import annotations

from textual.widgets import Static

from game.atlas import Spot, named
from game.folders import Folders
from game.packs import Puzzle
from game.screens.app import PairwrightApp
from game.screens.atlas.grid import AtlasGrid
from game.screens.atlas.screen import AtlasScreen
from game.screens.home.screen import HomeScreen
from game.screens.lines.watch import WatchScreen
from game.screens.shared.lists import ChoiceList
from game.screens.shared.picture_view import PictureView
from game.screens.shared.preview import Preview
from game.settings import Settings
from tests.screens.conftest import Game, Start
from tests.screens.home.test_screen import FIRST, at_home, at_play, solve

Shipped = dict[str, Puzzle]
HOOK_KEYS = "r b u u B R"
"""Keys of R B U2 B' R', which solves a3 at FR in par."""


async def opened(game: Game) -> AtlasScreen:
    """The atlas over an empty screen, filled."""
    screen = AtlasScreen()
    await game.app.push_screen(screen)
    return await filled(game)


async def filled(game: Game) -> AtlasScreen:
    """The atlas in front, with all of this sheet's pars found."""
    await game.until(lambda: isinstance(game.app.screen, AtlasScreen))
    screen = game.app.screen
    assert isinstance(screen, AtlasScreen)
    sheet = screen.spot.cell.sheet
    await game.until(lambda: all(screen.survey.facts(e).least is not None for e in sheet.cells))
    screen._show_found()
    await game.settle()
    return screen


def row(game: Game, letter: str) -> str:
    """A row of the grid as it is written, from its letter on."""
    grid = game.app.screen.query_one(AtlasGrid)
    rows = [text[grid.region.x : grid.region.right] for text in game.rows()]
    return next(text for text in rows if text.startswith(f"{letter} "))


def squares(game: Game, letter: str) -> list[str]:
    """The squares of a row: par and sign, after the pointer where it stands."""
    return row(game, letter)[15:].split()


async def test_from_home_to_a_placement_and_back(
    start: Start, folders: Folders, shipped: Shipped
) -> None:
    """From home: a opens the atlas, row, column and Enter play; its mark shows afterwards."""
    solve(folders, shipped[FIRST])
    async with start(app_type=PairwrightApp) as game:
        await at_home(game)
        await game.press("a")
        await filled(game)
        assert squares(game, "a")[3] == "5·"
        await game.press("a 3 enter")
        await at_play(game, "atlas/FR/a3")
        assert game.says("Atlas a3 at FR")
        assert game.text("#numbers").split()[:2] == ["par", "5"]
        await game.press(HOOK_KEYS)
        await game.until(lambda: game.says("Solved in 5: at par"))
        await game.press("q")
        screen = await filled(game)
        assert screen.spot.name == "a3"
        assert squares(game, "a")[3] == "▸5●"
        assert game.says("1 try; best 5 turns")
        await game.press("q")
        await game.until(lambda: isinstance(game.app.screen, HomeScreen))


async def test_enter_waits_for_nobody(start: Start) -> None:
    """Typed before any par is known, row, column and Enter still lead into play."""
    async with start() as game:
        await game.app.push_screen(AtlasScreen())
        await game.press("z 9 enter")
        await at_play(game, "atlas/FR/z9/BR")


async def test_every_placement_is_three_keys_away(start: Start) -> None:
    """Row and column alone choose a cell on any sheet."""
    async with start() as game:
        screen = await opened(game)
        for sheet_name in ("f9", "g0", "l5", "n0", "z9", "c4", "d2"):
            await game.press(" ".join(sheet_name))
            assert screen.spot.name == sheet_name
            assert row(game, sheet_name[0])


async def test_grid_and_facts(start: Start) -> None:
    """The grid tells each least par, the facts the chosen entry's par at each turn."""
    async with start() as game:
        await opened(game)
        await game.press("b 1")
        assert squares(game, "b") == ["7·", "▸3·", "6·", "7·", "7·", "7·", "6·", "3·", "6·", "7·"]
        assert squares(game, "d") == ["7·", "7·", "0", "9·"]
        facts = game.text("#facts").split("\n")
        assert facts[2].split()[1:] == ["4", "·", "3", "·", "3", "·", "4", "·"]
        assert game.says("· not solved ◐ solved ● at par")


async def test_arrows_and_sheets(start: Start) -> None:
    """Arrows go from cell to cell and on to the next sheet; PageDown and PageUp turn sheets."""
    async with start() as game:
        screen = await opened(game)
        await game.press("right down")
        assert screen.spot.name == "b1"
        await game.press("f down")
        assert screen.spot.name == "g1"
        await game.press("pagedown")
        assert screen.spot.name == "n0"
        await game.press("pagedown")
        assert screen.spot.name == "a0"
        await game.press("pageup")
        assert screen.spot.name == "n0"


async def test_turning_the_top(start: Start) -> None:
    """u turns the top on; the turned position is what is played."""
    async with start() as game:
        screen = await opened(game)
        await game.press("b 1 u")
        assert (screen.spot.name, screen.spot.turn) == ("b1", 1)
        await game.press("enter")
        await at_play(game, "atlas/FR/b1/U")
        assert game.says("top turned U")
        assert game.text("#numbers").split()[:2] == ["par", "3"]


async def test_mirror_and_other_slots(start: Start) -> None:
    """m leads to the left-right twin, y to the next slot: the pars are known at once."""
    async with start() as game:
        screen = await opened(game)
        await game.press("b 1 m")
        assert (screen.spot.name, screen.spot.slot) == ("c4", "FL")
        assert squares(game, "c")[4] == "▸3·"
        await game.press("y y")
        assert (screen.spot.name, screen.spot.slot) == ("c4", "BR")
        await game.press("m m")
        assert (screen.spot.name, screen.spot.slot) == ("c4", "BR")


async def test_a_stray_is_played_with_its_slot_open(start: Start) -> None:
    """A slot that holds a piece of the pair is open in play, and the screen says so."""
    async with start() as game:
        await opened(game)
        await game.press("n 8")
        await game.until(lambda: game.says("Played with slots FL and BR open"))
        await game.press("enter")
        await at_play(game, "atlas/FR/n8/FL+BR")
        assert game.sitting.position.open == ("FL", "BR")


async def test_slots_are_opened_on_the_screen(start: Start) -> None:
    """Tab leads to the terms: another value opens a slot, and the pars are those with it open."""
    async with start() as game:
        screen = await opened(game)
        await game.press("d 0")
        assert squares(game, "d")[0] == "▸7·"
        await game.press("tab down right")
        assert screen.survey.terms.chosen == ("FL",)
        await filled(game)
        assert squares(game, "d")[0] == "▸5·"
        await game.press("left d enter")
        await at_play(game, "atlas/FR/d0")


async def test_a_filter_leaves_cells_empty(start: Start) -> None:
    """Only what the terms pick is shown, arrows and the next level go along it."""
    async with start() as game:
        screen = await opened(game)
        await game.press("tab down down down down down right")
        assert screen.survey.terms.par == 3
        await filled(game)
        assert screen.spot.name == "b1"
        assert [squares(game, letter) for letter in "abc"] == [[], ["▸3·", "3·"], ["3·", "3·"]]
        await game.press("tab right down")
        assert screen.spot.name == "c4"
        await game.press("enter")
        await at_play(game, "atlas/FR/c4")
        await game.press("p")
        await at_play(game, "atlas/FR/c2")
        await game.press("n n")
        await game.until(lambda: isinstance(game.app.screen, AtlasScreen))
        assert screen.spot.name == "c4"


async def test_not_yet_at_par(start: Start) -> None:
    """What was solved at par leaves the grid when only the rest is asked for."""
    async with start() as game:
        screen = await opened(game)
        await game.press("a 3 enter")
        await at_play(game, "atlas/FR/a3")
        await game.press(f"{HOOK_KEYS} q")
        await filled(game)
        await game.press("tab end right")
        assert screen.survey.terms.unmet
        assert screen.spot.name == "a0"
        assert len(squares(game, "a")) == 9


async def test_watching_is_asked_twice(start: Start) -> None:
    """w asks first, then shows every shortest solution; later tries are marked as shown."""
    async with start() as game:
        screen = await opened(game)
        await game.press("a 3 w")
        assert game.says("w again shows the solutions")
        await game.press("w")
        await game.until(lambda: isinstance(game.app.screen, WatchScreen))
        await game.until(lambda: game.says("Shortest solutions") and game.says("5 turns"))
        await game.press("q")
        await game.until(lambda: game.app.screen is screen)
        assert not game.says("Looking for")
        text = screen.spot.position.text
        assert game.app.keeper.records.was_shown(text)
        await game.press("w")
        await game.until(lambda: isinstance(game.app.screen, WatchScreen))
        await game.press("q enter")
        await at_play(game, "atlas/FR/a3")
        assert game.sitting.shown


async def test_nothing_is_to_be_done_at_the_solved_one(start: Start) -> None:
    """d8 is neither played nor watched."""
    async with start() as game:
        screen = await opened(game)
        await game.press("d 8 enter")
        assert game.says("This one is solved")
        await game.press("w w u")
        assert game.app.screen is screen


async def test_a_column_that_is_not_there(start: Start) -> None:
    """On a sheet of six columns a higher digit says so."""
    async with start() as game:
        screen = await opened(game)
        await game.press("g 7")
        assert screen.spot.name == "g0"
        assert game.says("The columns here go from 0 to 5.")


async def test_par_stays_hidden_until_it_is_met(start: Start) -> None:
    """With par hidden the grid shows none, and play asks for the call."""
    async with start(settings=Settings(call=True)) as game:
        await opened(game)
        await game.press("a 3")
        assert set(squares(game, "a")) == {"?·", "▸?·"}
        await game.press("enter")
        await at_play(game, "atlas/FR/a3")
        await game.press(HOOK_KEYS)
        await game.until(lambda: game.says("Does a shorter way exist?"))
        await game.press("enter q")
        await filled(game)
        assert squares(game, "a")[3] == "▸5●"


async def test_the_mouse_does_it_too(start: Start) -> None:
    """A click chooses a cell, a click on it plays; sheets and terms are clicked as well."""
    async with start(size=(120, 40)) as game:
        screen = await opened(game)
        grid = screen.query_one(AtlasGrid)
        line = next(y for y, text in enumerate(game.rows()) if text.strip().startswith("b white"))
        spot = (15 + 5 + 1, line - grid.region.y)
        await game.click(AtlasGrid, offset=spot)
        assert screen.spot.name == "b1"
        await game.click(ChoiceList, offset=(4, 0))
        assert screen.spot.slot == "FL"
        tab = str(screen.query_one(".frame-name", Static).render()).index("n-z")
        await game.click(".frame-name", offset=(tab + 1, 0))
        assert screen.spot.name == "n0"
        await screen.run_action("to_sheet(0)")
        await game.click(AtlasGrid, offset=spot)
        await game.click(AtlasGrid, offset=spot)
        await at_play(game, "atlas/FL/b1")


async def test_small_and_large_windows(start: Start) -> None:
    """At 60 columns the terms take the chart's place while chosen; a large one has a cube too."""
    async with start(size=(60, 20)) as game:
        screen = await opened(game)
        assert not screen.query_one(Preview).is_on_screen
        await game.press("tab")
        await game.until(lambda: game.says("FL kept"))
        assert not screen.query_one(AtlasGrid).is_on_screen
        await game.press("q")
        await game.until(lambda: screen.query_one(AtlasGrid).is_on_screen)
    async with start(size=(120, 40)) as game:
        screen = await opened(game)
        await game.until(lambda: len(screen.query_one(Preview).query_one(PictureView).picture) > 20)


async def test_play_from_the_atlas_shares_records_with_packs(
    start: Start, folders: Folders, shipped: Shipped
) -> None:
    """A level of a pack that is the same position has left its mark in the atlas."""
    hook = shipped["00-first-turns/other-way-round"]
    assert Spot(named("a3")).position == hook.position
    solve(folders, hook)
    async with start() as game:
        await opened(game)
        assert squares(game, "a")[3] == "5●"
