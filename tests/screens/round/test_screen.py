"""One position of a run, a match or a contest, played with keys."""

from __future__ import annotations

from dataclasses import replace

import pytest

from game.cube.moves import line_text, parse_line
from game.engine.questions import first_question
from game.packs import Puzzle
from game.play.inspection import PENALTY
from game.play.position import position_after
from game.play.result import Result
from game.records import CLAIMED, Record
from game.screens.round.curtain import CurtainScreen
from game.screens.round.rules import Round, RoundRules
from game.screens.round.screen import RoundScreen
from tests.screens.conftest import Game, Slow, Start

FIRST = "00-first-turns/open-door"
"""Par 3: R U' R'."""
SOLVE = "r U R"


class Table:
    """Plays rounds one after another and keeps what came of them."""

    def __init__(self, game: Game, *rounds: Round) -> None:
        self.game = game
        self.rounds = [*rounds]
        self.results: list[Result] = []
        self.left: list[bool | None] = []

    def then(self, result: Result) -> Round | None:
        """Take a result; what comes next."""
        self.results.append(result)
        return self.rounds.pop(0) if self.rounds else None

    async def open(self, *, runs: bool = True) -> RoundScreen:
        """The screen at the first round."""
        screen = RoundScreen(RoundRules(self.rounds.pop(0), self.then))
        await self.game.app.push_screen(screen, self.left.append)
        await self.game.until(lambda: not runs or screen.sitting.running_since is not None)
        return screen

    def kept(self) -> tuple[Record, ...]:
        """The attempts of the run."""
        return self.game.app.keeper.records.attempts_of(7)


@pytest.fixture
def one(shipped: dict[str, Puzzle]) -> Round:
    """The first level as the first of two of a dash."""
    return Round(shipped[FIRST].position, "Dash", "1 of 2 · Ada", "dash", run=7, player="Ada")


@pytest.fixture
def two(one: Round) -> Round:
    """The second, the same once more."""
    return replace(one, name="2 of 2 · Ada")


async def test_two_positions_in_a_row(start: Start, one: Round, two: Round) -> None:
    """A solved position is kept, handed on with cut times, and the next begins at once."""
    async with start() as game:
        table = Table(game, one, two)
        screen = await table.open()
        assert game.says("Dash 1 of 2 · Ada")
        game.clock.now += 1.239
        await game.press("r")
        game.clock.now += 2.005
        await game.press("U R")
        (first,) = table.results
        assert line_text(first.line) == "R U' R'"
        assert (first.seeing, first.doing) == (123, 201)  # 3.244 s, each end of doing cut
        assert (first.solved, first.called, first.inspection) == (True, False, 0)
        assert game.says("Dash 2 of 2 · Ada")
        await game.until(lambda: screen.sitting.running_since is not None)
        await game.press(SOLVE)
        await game.until(lambda: table.left == [True])
        assert len(table.results) == 2
        one_kept, _ = table.kept()
        assert (one_kept.mode, one_kept.player, one_kept.run) == ("dash", "Ada", "7")
        assert (one_kept.outcome, one_kept.inspection) == ("solved", None)


async def test_nothing_is_told(start: Start, one: Round) -> None:
    """No par, no best, no hint: none of their keys is there, and turns alone are counted."""
    async with start() as game:
        screen = await Table(game, one).open()
        await game.until(lambda: screen.sitting.proven_par is None)
        assert game.text("#numbers").split() == ["turns", "0"]
        await game.press("h")
        assert not game.says("par")
        assert not game.says("hint")


async def test_par_is_learnt_later(start: Start, one: Round, two: Round) -> None:
    """An attempt that is kept before its par is found learns it when it is."""
    async with start() as game:
        table = Table(game, one, two)
        await table.open()
        await game.press(SOLVE)
        await game.until(lambda: [record.par for record in table.kept()] == [3])


async def test_given_up_is_asked_twice(start: Start, one: Round) -> None:
    """One g asks, a turn forgets it, two in a row leave the position unsolved."""
    async with start() as game:
        table = Table(game, one)
        await table.open()
        await game.press("g r g")
        assert table.results == []
        game.clock.now += 3
        await game.press("g")
        (result,) = table.results
        assert (result.solved, result.seeing, result.doing) == (False, 0, 300)
        assert line_text(result.line) == "R"
        assert [record.outcome for record in table.kept()] == ["gave up"]
        await game.until(lambda: table.left == [True])


async def test_leaving_is_asked_twice(start: Start, one: Round) -> None:
    """Leaving keeps nothing of the position in hand, and says that it was left."""
    async with start() as game:
        table = Table(game, one)
        await table.open()
        await game.press("r q")
        assert game.says("Leave?")
        await game.press("q")
        await game.until(lambda: table.left == [False])
        assert table.results == []
        assert table.kept() == ()
        assert game.app.keeper.records.in_hand(one.position.text) is None


async def test_a_pause_hides_the_cube(start: Start, one: Round) -> None:
    """While the clock stands nothing of the cube is to be seen, and the time does not count."""
    async with start() as game:
        table = Table(game, one)
        screen = await table.open()
        game.clock.now += 1
        await game.press("r space")
        await game.until(lambda: isinstance(game.app.screen, CurtainScreen))
        assert game.says("The clock stands.")
        assert not any("▀" in row or "▄" in row for row in game.rows())
        game.clock.now += 100
        await game.press("space")
        await game.until(lambda: screen.sitting.running_since is not None)
        game.clock.now += 1
        await game.press("U R")
        assert (table.results[0].seeing, table.results[0].doing) == (100, 100)


async def test_a_count_down_in_words(start: Start, one: Round) -> None:
    """Three, two, one, and only then is the cube to be seen and the time runs."""
    async with start() as game:
        screen = await Table(game, replace(one, counts_down=True)).open(runs=False)
        for word in ("three", "two", "one"):
            await game.until(lambda word=word: game.says(word))  # type: ignore[misc]
            assert screen.sitting.running_since is None
            game.clock.now += 1
        await game.until(lambda: screen.sitting.running_since is not None)
        assert screen.sitting.running_since == game.clock.now


async def test_leaving_before_it_begins(start: Start, one: Round) -> None:
    """The count-down can be left."""
    async with start() as game:
        table = Table(game, replace(one, counts_down=True))
        await table.open(runs=False)
        await game.until(lambda: isinstance(game.app.screen, CurtainScreen))
        await game.press("q")
        await game.until(lambda: table.left == [False])


@pytest.mark.parametrize(("seconds", "added"), [(14.99, 0), (15.0, PENALTY), (16.99, PENALTY)])
async def test_inspection(start: Start, one: Round, seconds: float, added: int) -> None:
    """Rotating looks, the first turn starts; from 15.00 s on two seconds are added (WCA A4)."""
    async with start() as game:
        table = Table(game, replace(one, inspects=True))
        screen = await table.open(runs=False)
        await game.until(lambda: screen.rules.inspects)
        await game.press("y Y")
        game.clock.now += seconds
        await game.press("r")
        game.clock.now += 2
        await game.press("U R")
        (result,) = table.results
        assert (result.seeing, result.doing, result.inspection) == (0, 200, added)
        assert [record.inspection for record in table.kept()] == [added]


@pytest.mark.parametrize(("keys", "doing"), [("g g", 0), ("r g g", 0), ("r U g g", 0)])
async def test_giving_up_costs_its_inspection(
    start: Start, one: Round, keys: str, doing: int
) -> None:
    """Who gives up after 14 s of inspection has used 14 s, whether a turn was made or not."""
    async with start() as game:
        table = Table(game, replace(one, inspects=True))
        screen = await table.open(runs=False)
        await game.until(lambda: screen.rules.inspects)
        game.clock.now += 14
        await game.press(keys)
        (result,) = table.results
        assert (result.solved, result.seeing, result.doing) == (False, 1400, doing)
        assert [record.seeing_ms for record in table.kept()] == [14_000]


async def test_escape_takes_giving_up_back(start: Start, one: Round) -> None:
    """Escape answers the question of giving up with no, and does not ask another."""
    async with start() as game:
        table = Table(game, one)
        await table.open()
        await game.press("g escape")
        assert not game.says("Give up?")
        assert not game.says("Leave?")
        await game.press("g")
        assert game.says("Give up?")
        assert table.results == []


async def test_no_pause_is_offered_during_inspection(start: Start, one: Round) -> None:
    """The key bar offers to pause only once the clock runs, and to give up in any window."""
    async with start(size=(60, 20)) as game:
        screen = await Table(game, replace(one, inspects=True)).open(runs=False)
        await game.until(lambda: screen.rules.inspects)
        await game.until(lambda: game.says("g give up"))
        assert not game.says("Space pause")
        await game.press("r")
        await game.until(lambda: game.says("Space pause"))
        assert game.says("g give up")


async def test_inspection_lost(start: Start, one: Round, two: Round) -> None:
    """A start after 17.00 s is none: the position is lost and the turn is not made in the next."""
    async with start() as game:
        table = Table(game, replace(one, inspects=True), two)
        screen = await table.open(runs=False)
        await game.until(lambda: screen.rules.inspects)
        assert screen.rules.looks is not None
        screen.rules.looks.pause()  # the key is to be what ends it
        game.clock.now += 17
        await game.press("r")
        await game.until(lambda: len(table.results) == 1)
        (result,) = table.results
        assert (result.solved, result.inspection) == (False, 0)
        assert (result.seeing, result.doing) == (1700, 0)
        assert [record.outcome for record in table.kept()] == ["lost"]
        assert game.says("2 of 2")
        assert game.says("Lost: over 17 seconds of inspection.")
        assert screen.sitting.attempt.line == ()


async def test_a_late_key_is_not_meant_for_the_next(start: Start, one: Round, two: Round) -> None:
    """A key that was pressed before time ended the position does nothing in the one after."""
    async with start() as game:
        table = Table(game, replace(one, left_ms=1000), two)
        screen = await table.open()
        game.clock.now += 2
        await game.until(lambda: game.says("2 of 2"))
        game.clock.now -= 0.5
        await game.press("r")
        assert screen.sitting.attempt.line == ()


async def test_inspection_warns_and_ends_by_itself(start: Start, one: Round) -> None:
    """At 8 and at 12 seconds a word is said; at 17 the position is lost without a key."""
    async with start() as game:
        table = Table(game, replace(one, inspects=True))
        screen = await table.open(runs=False)
        await game.until(lambda: screen.rules.inspects)
        for second, words in ((8, "8 seconds!"), (12, "12 seconds!"), (15, "are added")):
            game.clock.now = 1000 + second
            await game.until(lambda words=words: game.says(words))  # type: ignore[misc]
        await game.press("space")
        assert isinstance(game.app.screen, RoundScreen)
        game.clock.now = 1017
        await game.until(lambda: table.left == [True])
        assert [record.outcome for record in table.kept()] == ["lost"]
        lost = "Lost: over 17 seconds of inspection."
        await game.until(lambda: game.told == [lost])


async def test_what_is_said_gives_way_to_inspection(start: Start, one: Round) -> None:
    """A word about the position before stands for three seconds beside those of inspection."""
    async with start() as game:
        screen = await Table(game, replace(one, inspects=True, said="Well done.")).open(runs=False)
        await game.until(lambda: screen.rules.inspects)
        await game.until(lambda: game.says("Inspection 0 s Well done."))
        game.clock.now += 3
        await game.until(lambda: game.says("Inspection 3 s"))
        assert not game.says("Well done.")


async def test_time_is_up(start: Start, one: Round) -> None:
    """At its limit a position ends by itself, and a turn that comes later is not made."""
    async with start() as game:
        table = Table(game, replace(one, left_ms=5000), replace(one, left_ms=1000))
        screen = await table.open()
        await game.press("r U")
        game.clock.now += 5
        await game.press("R")
        assert [result.solved for result in table.results] == [False]
        await game.until(lambda: screen.sitting.running_since is not None)
        game.clock.now += 2
        await game.until(lambda: table.left == [True])
        assert [record.outcome for record in table.kept()] == ["abandoned", "abandoned"]


@pytest.mark.parametrize(("key", "called"), [("c", True), ("enter", False)])
async def test_a_call_is_asked(start: Start, one: Round, key: str, called: bool) -> None:
    """Where calls count, the end of a position asks for one before it goes on."""
    async with start() as game:
        table = Table(game, replace(one, calls=True))
        await table.open()
        await game.press(SOLVE)
        await game.until(lambda: game.says("Does a shorter way exist?"))
        assert game.says("Maybe: go on")
        assert table.results == []
        await game.press(key)
        await game.until(lambda: table.left == [True])
        assert [result.called for result in table.results] == [called]
        (record,) = table.kept()
        assert record.called in ((CLAIMED, "right") if called else ("",))


async def test_the_status_runs(start: Start, one: Round) -> None:
    """What stands at the right of the title follows the clock."""
    async with start() as game:
        await Table(game, replace(one, status=lambda ms: f"{ms // 1000} so far")).open()
        game.clock.now += 7
        await game.until(lambda: game.says("7 so far"))


async def test_redo_can_solve(start: Start, one: Round) -> None:
    """A line that is solved by making a turn again is solved."""
    async with start() as game:
        table = Table(game, one)
        await table.open()
        await game.press("r U l backspace")
        await game.press("R")
        assert [line_text(result.line) for result in table.results] == ["R U' R'"]


async def test_a_line_can_be_typed(start: Start, one: Round) -> None:
    """Typed turns are made as any others."""
    async with start() as game:
        table = Table(game, one)
        screen = await table.open()
        await game.until(lambda: screen.query("#entry"))
        await game.press("t")
        await game.press("R space U apostrophe space R apostrophe enter")
        await game.until(lambda: len(table.results) == 1)
        assert table.results[0].solved


@pytest.mark.parametrize("size", [(60, 20), (80, 24), (120, 40)])
async def test_sizes(start: Start, one: Round, size: tuple[int, int]) -> None:
    """The heading, the cube, the clock and the keys are there in every window."""
    async with start(size=size) as game:
        screen = await Table(game, one).open()
        await game.until(lambda: screen.query("#entry"))
        for words in ("1 of 2 · Ada", "seeing", "turns", "Space pause", "q leave"):
            assert game.says(words)


@pytest.mark.parametrize("key", ["enter", "c"])
async def test_what_is_kept_does_not_depend_on_who_was_faster(
    start: Start, one: Round, slow: Slow, key: str
) -> None:
    """Whether par is known before the call or after it, the record comes to the same."""
    early = await kept_of(start, one, slow, key, is_known_before=True)
    late = await kept_of(start, one, slow, key, is_known_before=False)
    assert replace(early, began=late.began) == late
    assert late.called == ("right" if key == "c" else "")


async def kept_of(
    start: Start, one: Round, slow: Slow, key: str, *, is_known_before: bool
) -> Record:
    """The record of the position solved, with par known before the call or only afterwards."""
    async with start() as game:
        table = Table(game, replace(one, calls=True))
        screen = await table.open()
        question = first_question(screen.sitting.position)
        slow.may_go_on.clear()
        await game.press(SOLVE)
        await game.until(lambda: game.says("Does a shorter way exist?"))
        if is_known_before:
            slow.may_go_on.set()
            await game.until(lambda: game.app.engine.known(question) is not None)
        await game.press(key)
        slow.may_go_on.set()
        await game.until(lambda: table.kept()[-1].par == 3)
        return table.kept()[-1]


async def test_the_next_position_is_not_suspected_of_caps_lock(start: Start, one: Round) -> None:
    """Four turns the other way may end a position: what came of it is said over the next one."""
    made = replace(one, position=position_after(parse_line("R F L D")))
    async with start() as game:
        table = Table(game, made, replace(one, said="Well done."))
        screen = await table.open()
        await game.press("D L F R")
        await game.until(lambda: len(table.results) == 1)
        await game.until(lambda: game.text("#message") == "Well done.")
        assert screen.sitting.attempt.events == ()
