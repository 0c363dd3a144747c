"""Playing what has no par yet: nothing waits for the search."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from game.cube.moves import parse_line
from game.folders import Folders
from game.play.playable import Playable
from game.play.position import Position, position_after
from game.records import Record, open_records
from game.screens.app import PairwrightApp
from game.screens.play.casual import CasualRules, PlayScreen
from game.settings import Settings
from tests.screens.conftest import Game, Slow, Start


@dataclass(frozen=True)
class Unproven:
    """Something to play whose par nobody has claimed."""

    position: Position
    name: str = "Unproven"
    par: int | None = None

    key = ""
    source = "Tests"
    aside = ""
    place = ""
    mode = "casual"
    why = ""

    def note(self, colours: Mapping[str, str]) -> str:
        """Nothing is said."""
        return ""


FIRST = Unproven(position_after(parse_line("R U R'")))
SECOND = Unproven(position_after(parse_line("L' U' L")), name="Another")


def beside(puzzle: Playable, step: int) -> Unproven | None:
    return SECOND if puzzle is FIRST else None


async def opened(game: Game) -> PlayScreen:
    screen = PlayScreen(CasualRules(FIRST, beside))
    await game.app.push_screen(screen)
    await game.until(lambda: screen.is_active and screen.sitting.running_since is not None)
    await game.until(lambda: game.says("par 2+"))
    return screen


def recorded(folders: Folders) -> list[Record]:
    records = open_records(folders.records)
    found = list(records.all_attempts())
    records.close()
    return found


async def test_the_score_waits(start: Start, folders: Folders, slow: Slow) -> None:
    """Solved before par is known: that is said, and the score comes as soon as it can."""
    async with start() as game:
        screen = await opened(game)
        await game.press("r U R")
        await game.until(lambda: game.says("Solved in 3 turns"))
        assert "Par is still being searched: 2 or more." in game.text("#verdict")
        assert screen.sitting.score is None
        slow.may_go_on.set()
        await game.until(lambda: game.says("Solved in 3: at par"))
        await game.until(lambda: recorded(folders)[0].par == 3)
        await game.until(lambda: recorded(folders)[0].at_hand)


async def test_the_player_goes_on(start: Start, folders: Folders, slow: Slow) -> None:
    """Enter leads on at once; the record gets its par behind the player's back."""
    async with start() as game:
        screen = await opened(game)
        await game.press("r U R")
        await game.until(lambda: game.says("Solved in 3 turns"))
        await game.press("enter")
        await game.until(lambda: screen.sitting.puzzle == SECOND)
        assert [record.par for record in recorded(folders)] == [None]
        slow.may_go_on.set()
        await game.until(lambda: recorded(folders)[0].par == 3)
        await game.until(lambda: recorded(folders)[0].at_hand)
        assert screen.sitting.puzzle == SECOND


async def test_given_up(start: Start, folders: Folders, slow: Slow) -> None:
    """Who gives up before par is known is told it, and the shortest ways, once they are there."""
    async with start() as game:
        await opened(game)
        await game.press("g g")
        await game.until(lambda: game.says("Given up"))
        slow.may_go_on.set()
        await game.until(lambda: game.says("The shortest takes 3 turns"))
        await game.until(lambda: recorded(folders)[0].par == 3)


async def test_a_call_before_par_is_known(start: Start, folders: Folders, slow: Slow) -> None:
    """Who calls it while par is being searched learns later whether that was right."""
    async with start(settings=Settings(call=True)) as game:
        screen = PlayScreen(CasualRules(FIRST, beside))
        await game.app.push_screen(screen)
        await game.until(lambda: screen.is_active and screen.sitting.running_since is not None)
        await game.press("r U R")
        await game.until(lambda: game.says("Does a shorter way exist?"))
        await game.press("c")
        await game.until(lambda: recorded(folders)[0].called == "claimed")
        slow.may_go_on.set()
        await game.until(lambda: game.says("called it: right"))
        await game.until(lambda: recorded(folders)[0].called == "right")


async def test_a_game_that_ends_before(start: Start, folders: Folders, slow: Slow) -> None:
    """What is unknown when the game ends stays unknown, until the position is met again."""
    async with start() as game:
        await opened(game)
        await game.press("r U R")
        await game.until(lambda: game.says("Solved in 3 turns"))
    assert [record.par for record in recorded(folders)] == [None]
    slow.may_go_on.set()
    async with start(app_type=PairwrightApp) as game:
        game.app.keeper.follow(replace(FIRST).position)
        await game.until(lambda: recorded(folders)[0].par == 3)
