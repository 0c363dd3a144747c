"""The playing screen through its keys: turns, the line, the end of an attempt."""

from __future__ import annotations

from game.engine.engine import Preparing, whole_question
from game.packs import Puzzle
from game.screens.play.casual import PlayScreen
from game.settings import Settings
from tests.screens.conftest import Start

Shipped = dict[str, Puzzle]
FIRST, HOOK = "00-first-turns/open-door", "00-first-turns/other-way-round"
"""Levels of par 3, `R U' R'`, and of par 5, `R B U2 B' R'`."""
HABIT = "r U R u u r u R"
"""The keys of `R U' R' U2 R U R'`, seven turns that solve the second of them."""


async def test_the_first_level_is_solved_at_par(start: Start, shipped: Shipped) -> None:
    """Three keys solve the first level at par, and Enter goes on to its left twin."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("r U R")
        await game.until(lambda: game.says("Solved in 3: at par"))
        await game.until(lambda: game.says("● at hand: no shorter by slot's sides"))
        assert game.sitting.attempt.turns == 3
        await game.press("enter")
        assert game.sitting.puzzle.key == f"{FIRST}~left-right"


async def test_undo_redo_and_restart_move_along_the_line(start: Start, shipped: Shipped) -> None:
    """Undo takes the last turn, redo brings it back, restart takes all; none counts."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("r U backspace")
        assert game.text("#line").splitlines()[0] == "R"
        await game.press("right")
        assert game.text("#line").splitlines()[0] == "R U'"
        await game.press("0")
        assert game.sitting.attempt.line == ()
        assert game.text("#numbers").split() == ["par", "3", "turns", "0"]
        assert [event.what for event in game.sitting.attempt.events] == [
            "R", "U'", "undo", "redo", "restart",
        ]  # fmt: skip


async def test_a_key_pressed_twice_is_written_as_a_half_turn(
    start: Start, shipped: Shipped
) -> None:
    """Two quarter turns of one face stand as one half turn and count one."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("f f")
        assert game.text("#line").splitlines()[0] == "F2"
        assert game.sitting.attempt.turns == 1


async def test_a_sign_stands_under_each_turn_that_leaves_the_pair_joined(
    start: Start, shipped: Shipped
) -> None:
    """The first level's pair is joined at the start, L parts it, and L' joins it again."""
    async with start() as game:
        await game.play(shipped[FIRST])
        await game.press("r l L U")
        above, below = game.text("#line").splitlines()
        assert above == "R L L' U'"
        assert [above[i:].split()[0] for i, sign in enumerate(below) if sign == "&"] == [
            "R", "L'", "U'",
        ]  # fmt: skip


async def test_a_forbidden_turn_is_refused_with_a_word(start: Start, shipped: Shipped) -> None:
    """A face that may not turn does not turn, does not count, and the screen says why."""
    restricted = next(p for p in shipped.values() if "B" not in p.position.faces and not p.twin)
    async with start() as game:
        await game.play(restricted)
        assert game.says("may turn")
        await game.press("b")
        assert game.sitting.attempt.events == ()
        assert game.text("#message").startswith("B turns face B; here only")


async def test_a_wide_turn_follows_its_prefix(start: Start, shipped: Shipped) -> None:
    """`w` makes the next face turn wide; Escape takes it back instead of leaving."""
    async with start() as game:
        screen = await game.play(shipped[FIRST])
        await game.press("w R r w escape r")
        assert [event.what for event in game.sitting.attempt.events] == ["Rw'", "R", "R"]
        assert game.app.screen is screen


async def test_looking_round_ends_no_seeing_time(start: Start, shipped: Shipped) -> None:
    """Rotations leave seeing time running; the first turn ends it, the first side is apart."""
    async with start() as game:
        await game.play(shipped[FIRST])
        for seconds, key in ((1, "y"), (2, "Y"), (4, "u"), (8, "U"), (16, "r")):
            game.clock.now += seconds
            await game.press(key)
        assert game.sitting.attempt.seeing_ms == 7000
        assert game.sitting.attempt.first_side_ms == 31000
        assert game.text("#clock").split() == ["seeing", "7.0", "doing", "24.0"]


async def test_over_par_the_solutions_stay_hidden(start: Start, shipped: Shipped) -> None:
    """Over par one fact is told and no solution; Enter tries again, and par is met."""
    async with start() as game:
        await game.play(shipped[HOOK])
        await game.press(HABIT)
        await game.until(lambda: game.says("Solved in 7: two over par"))
        await game.until(lambda: game.says("turns later than needed"))
        assert not game.says("R B U2")
        await game.press("enter")
        assert (game.sitting.outcome, game.sitting.attempt.events) == ("", ())
        await game.press("r b u u B R")
        await game.until(lambda: game.says("Solved in 5: at par"))
        assert not game.sitting.shown


async def test_shown_solutions_are_remembered(start: Start, shipped: Shipped) -> None:
    """Giving up is asked twice, shows every shortest solution, and marks later attempts."""
    async with start() as game:
        await game.play(shipped[HOOK])
        await game.press("g")
        assert game.sitting.outcome == ""
        await game.press("g")
        assert game.sitting.outcome == "gave up"
        await game.until(lambda: game.says("The shortest takes 5 turns"))
        await game.until(lambda: game.app.screen.focused is not None)
        assert len(game.sitting.solutions) == 1
        await game.press("a r b u u B R")
        await game.until(lambda: game.says("The solutions were shown before."))
        assert game.sitting.shown
    records = game.app.keeper.records.attempts(shipped[HOOK].position.text)
    assert [(r.outcome, r.shown) for r in records] == [("solved", True), ("gave up", False)]


async def test_escape_closes_the_solutions_first(start: Start, shipped: Shipped) -> None:
    """Escape puts the list of solutions away, and leaves only then."""
    async with start() as game:
        screen = await game.play(shipped[HOOK])
        await game.press("g g")
        await game.until(lambda: game.says("Enter watches it."))
        await game.until(lambda: game.says("or held otherwise:"))
        await game.press("escape")
        await game.until(lambda: not game.says("Enter watches it."))
        assert game.app.screen is screen
        await game.press("escape")
        await game.until(lambda: game.app.screen is not screen)


async def test_a_right_call_earns_its_mark(start: Start, shipped: Shipped) -> None:
    """With par hidden, `c` after solving calls it; a right call is marked and kept."""
    async with start(settings=Settings(call=True)) as game:
        await game.play(shipped[FIRST])
        assert game.text("#numbers").split() == ["par", "hidden", "turns", "0"]
        await game.press("r U R")
        await game.until(lambda: game.says("Does a shorter way exist?"))
        assert not game.says("at par")
        await game.press("c")
        await game.until(lambda: game.says("called it: right"))
        best = game.app.keeper.records.best(shipped[FIRST].position.text)
        assert best is not None
        assert best.called


async def test_a_wrong_call_is_told(start: Start, shipped: Shipped) -> None:
    """A call over par is wrong, and kept as such."""
    async with start(settings=Settings(call=True)) as game:
        await game.play(shipped[HOOK])
        await game.press(f"{HABIT} c")
        await game.until(lambda: game.says("called it: wrong"))
        (record,) = game.app.keeper.records.attempts(shipped[HOOK].position.text)
        assert record.called == "wrong"


async def test_an_attempt_survives_leaving(start: Start, shipped: Shipped) -> None:
    """An attempt that was left is taken up again with its line, its events and its clock."""
    async with start() as game:
        await game.play(shipped[HOOK])
        game.clock.now += 3
        await game.press("r b q")
        await game.until(lambda: not isinstance(game.app.screen, PlayScreen))
    async with start() as game:
        await game.play(shipped[HOOK])
        assert game.text("#line").splitlines()[0] == "R B"
        game.clock.now += 2
        await game.press("u u B R")
        assert [event.ms for event in game.sitting.attempt.events] == [3000] * 2 + [5000] * 4
        assert game.sitting.outcome == "solved"


async def test_an_attempt_survives_the_end_of_the_game(start: Start, shipped: Shipped) -> None:
    """What is in hand when the game ends from outside is kept."""
    async with start() as game:
        await game.play(shipped[HOOK])
        await game.press("r b")
        game.app.exit()
    async with start() as game:
        await game.play(shipped[HOOK])
        assert [event.what for event in game.sitting.attempt.events] == ["R", "B"]


async def test_time_stands_while_the_cube_is_out_of_view(start: Start, shipped: Shipped) -> None:
    """Letters the help costs no seeing time."""
    async with start() as game:
        screen = await game.play(shipped[FIRST])
        game.clock.now += 1
        await game.press("question_mark")
        await game.until(lambda: screen.sitting.running_since is None)
        game.clock.now += 60
        await game.press("escape")
        await game.until(lambda: screen.sitting.running_since is not None)
        game.clock.now += 1
        await game.press("r")
        assert screen.sitting.attempt.seeing_ms == 2000


async def test_what_par_waits_for_is_told(start: Start, shipped: Shipped) -> None:
    """How far the large tables are stands in the message line; other words go before it."""
    state = "Large tables are built once, for three and four pairs: 50%, 30 s left"
    async with start() as game:
        puzzle = shipped["13-two-at-once/swing-door"]
        screen = await game.play(puzzle)
        game.app.engine.forget(screen)
        await game.settle()
        other = whole_question(shipped[FIRST].position)
        screen.hear(Preparing(other, "of another position"))
        screen.hear(Preparing(whole_question(puzzle.position), state))
        await game.until(lambda: game.says(state))
        assert not game.says("of another position")
        await game.press("k")
        assert game.says("Capitals are now plain turns.")
        assert not game.says(state)
