"""The map of packs."""

from __future__ import annotations

from dataclasses import replace

from game.folders import Folders
from game.packs import Puzzle
from game.records import open_records
from game.screens.home.map import MapScreen
from game.screens.play.casual import PlayScreen
from game.screens.shared.preview import Preview, best_words
from game.settings import Settings
from tests.records.samples import SAMPLE
from tests.screens.conftest import Game, Start
from tests.screens.home.test_map_rows import BEST

Shipped = dict[str, Puzzle]
PACK, SECOND = "00-first-turns", "01-side-by-side"
FIRST, HOOK = f"{PACK}/open-door", f"{PACK}/other-way-round"


async def at_map(game: Game, at: Puzzle | None = None) -> MapScreen:
    """The map, filled."""
    screen = MapScreen(at)
    await game.app.push_screen(screen)
    await game.until(lambda: screen.puzzle is not None and game.says("Map of packs"))
    return screen


def keep(folders: Folders, puzzle: Puzzle, turns: int) -> None:
    """Let the player have solved a puzzle in so many turns."""
    records = open_records(folders.records)
    text, par = puzzle.position.text, puzzle.par
    at_hand = turns == par
    records.add(replace(SAMPLE, position=text, turns=turns, par=par, at_hand=at_hand))
    records.close()


def facts(game: Game, name: str, count: int) -> list[str]:
    """The last words of the row in which a name stands."""
    row = next((text for text in game.rows() if name in text), "")
    return row.split()[-count:]


async def test_every_pack_can_be_reached(start: Start, shipped: Shipped) -> None:
    """Going down the packs shows each pack's sentence and its first level."""
    async with start() as game:
        screen = await at_map(game)
        await game.press("left")
        packs = game.app.packs
        assert len(packs) >= 12
        for pack in packs:
            await game.until(lambda pack=pack: screen.pack == pack)
            level = pack.levels[0].name[:12]
            await game.until(lambda level=level: game.says(level))
            assert screen.puzzle is not None and screen.puzzle.pack == pack
            await game.press("down")


async def test_enter_plays_and_escape_returns(start: Start, shipped: Shipped) -> None:
    """Enter plays the marked level; back from it, the level last played is marked."""
    async with start() as game:
        screen = await at_map(game, shipped[f"{SECOND}/{second_id(shipped)}"])
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))
        played = game.sitting.puzzle
        assert played.pack.id == SECOND
        await game.press("n")
        following = game.sitting.puzzle
        assert following is not played
        await game.press("escape")
        await game.until(lambda: game.app.screen is screen and screen.puzzle == following)


def second_id(shipped: Shipped) -> str:
    """The id of the first level of the second pack."""
    return next(puzzle.level.id for puzzle in shipped.values() if puzzle.pack.id == SECOND)


async def test_after_a_pack_comes_the_next_level_of_the_course(
    start: Start, shipped: Shipped
) -> None:
    """Going on from the last level of a pack marks the next level that is not solved."""
    last = [p for p in shipped.values() if p.pack.id == SECOND and not p.twin][-1]
    async with start() as game:
        screen = await at_map(game, last)
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))
        await game.press("n")
        await game.until(lambda: game.app.screen is screen and screen.puzzle == shipped[FIRST])


async def test_the_best_shows(start: Start, folders: Folders, shipped: Shipped) -> None:
    """Turns, time and marks of the best attempt stand in the level's row; the pack counts it."""
    keep(folders, shipped[HOOK], 7)
    async with start() as game:
        await at_map(game, shipped[HOOK])
        await game.until(lambda: game.says("1/5"))
        await game.until(lambda: facts(game, "The Other Way", 5) == ["FR", "5", "7", "1.0", "●○○"])
        await game.until(lambda: game.says("0 at par"))


async def test_par_is_hidden_where_it_is_called(start: Start, shipped: Shipped) -> None:
    """With par hidden no row tells it."""
    async with start(settings=Settings(call=True)) as game:
        await at_map(game, shipped[HOOK])
        await game.until(lambda: facts(game, "The Other Way", 2) == ["?", "○○○"])


async def test_twins_open_and_close(start: Start, shipped: Shipped) -> None:
    """`t` lists the twins under their level, a twin plays, and `t` again hides them."""
    async with start() as game:
        screen = await at_map(game, shipped[FIRST])
        assert not game.says("left-right twin")
        await game.press("t")
        await game.until(lambda: game.says("left-right twin"))
        await game.press("down")
        assert screen.puzzle == shipped[f"{FIRST}~left-right"]
        await game.press("enter")
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))
        assert game.sitting.puzzle.twin == "left-right"
        await game.press("escape")
        await game.until(lambda: screen.is_current and screen.puzzle is not None)
        await game.until(lambda: screen.puzzle == shipped[f"{FIRST}~left-right"])
        await game.press("t")
        await game.until(lambda: not game.says("left-right twin"))
        assert screen.puzzle == shipped[FIRST]


async def test_a_level_without_twins_offers_none(start: Start, shipped: Shipped) -> None:
    """The key of twins is not offered, and does nothing, where there are none."""
    async with start() as game:
        screen = await at_map(game, shipped[HOOK])
        await game.until(lambda: not game.says("t twins"))
        await game.press("t")
        assert screen.puzzle == shipped[HOOK]


async def test_clicks_mark_and_play(start: Start, shipped: Shipped) -> None:
    """A click marks a level, a click on the marked level plays it, a click on a pack opens it."""
    async with start() as game:
        screen = await at_map(game, shipped[FIRST])
        row = next(y for y, text in enumerate(game.rows()) if "First Handshake" in text)
        await game.click(offset=(40, row))
        await game.until(lambda: screen.puzzle == shipped[f"{PACK}/first-handshake"])
        assert game.app.screen is screen
        await game.click(offset=(40, row))
        await game.until(lambda: isinstance(game.app.screen, PlayScreen))
        await game.press("escape")
        await game.until(lambda: screen.is_current)
        row = next(y for y, text in enumerate(game.rows()) if "Side by Side" in text)
        await game.click(offset=(5, row))
        await game.until(lambda: screen.pack is not None and screen.pack.id == SECOND)


async def test_a_picture_where_there_is_room(start: Start, shipped: Shipped) -> None:
    """From 100 columns on the marked level has a picture and words; below there is neither."""
    async with start(size=(100, 30)) as game:
        screen = await at_map(game, shipped[HOOK])
        await game.until(lambda: game.says("not tried yet"))
        assert screen.query_one(Preview).display
    async with start(size=(99, 30)) as game:
        screen = await at_map(game, shipped[HOOK])
        assert not screen.query_one(Preview).display


async def test_every_level_has_its_row_at_80x24(start: Start, shipped: Shipped) -> None:
    """At 80x24 each level of each pack stands on one line that ends with its marks."""
    async with start() as game:
        screen = await at_map(game, shipped[FIRST])
        await game.press("left")
        for pack in game.app.packs:
            await game.until(lambda pack=pack: screen.pack == pack)
            await game.until(
                lambda pack=pack: (
                    [row.rstrip()[-3:] for row in game.rows()].count("○○○") == len(pack.levels)
                )
            )
            await game.press("down")


def test_best_in_words() -> None:
    """The best is told in words; a solution that was shown leaves only the tries."""
    assert best_words(None) == "not tried yet"
    assert best_words(BEST) == "4 tries; best 5 turns, seeing 2.3, doing 12.3"
    assert best_words(BEST._replace(turns=None)) == "4 tries; solved with help"
    assert best_words(BEST._replace(attempts=1, solved=False, turns=None)) == "1 try"


async def test_a_level_that_was_only_shown_says_so(
    start: Start, folders: Folders, shipped: Shipped
) -> None:
    """In place of the marks, until it is solved."""
    records = open_records(folders.records)
    for key in (FIRST, HOOK):
        records.mark_shown(shipped[key].position.text)
    records.close()
    keep(folders, shipped[FIRST], 4)
    async with start() as game:
        await at_map(game, shipped[HOOK])
        await game.until(lambda: facts(game, "The Other Way Round", 1) == ["shown"])
        assert facts(game, "The Open Door", 1) != ["shown"]
