"""Every sentence of the coach is true: each claim is worked out anew from the cube alone."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from game.coach.comparison import compare, compared_words, fact
from game.cube import line as lines
from game.cube.cube import Cube
from game.cube.geometry import FACES
from game.cube.line import Line, inverse
from game.cube.moves import FACE_MOVES, parse_line
from game.cube.pair import SLOTS, is_goal
from game.cube.words import SIDE
from game.packs.difficulty import Find
from game.play.position import Position, position_after, position_of
from game.prose import numeral
from game.search.outcome import Solved
from tests.deals import one_pair_unsolved, pairs_unsolved
from tests.plain_cube import is_home, is_stuck, is_top, touches

SHORT = parse_line("R B U2 B' R'")
HOOK = position_after(inverse(SHORT))
HABIT = parse_line("R U' R' U2 R U R'")

NUMBERS = {numeral(count): count for count in range(11)} | {"once": 1, "twice": 2}
FACE = {name: face for face, name in SIDE.items()}


def number(word: str) -> int:
    return NUMBERS[word] if word in NUMBERS else int(word)


# -- the claims, each from the cube alone --------------------------------------------------------


class Judge:
    """A player's line and all the shortest ones, and whether a sentence about them is true."""

    def __init__(self, position: Position, own: Line, solutions: Sequence[Line], find: Find):
        self.position = position
        self.own = own
        self.solutions = solutions
        self.find = find

    def holds(self, sentence: str) -> bool:
        """Whether exactly one kind of sentence fits, and its claim is true."""
        matches = [(re.fullmatch(pattern, sentence), claim) for pattern, claim in CLAIMS]
        fitting = [(match, claim) for match, claim in matches if match is not None]
        assert len(fitting) == 1, sentence
        match, claim = fitting[0]
        return claim(self, *match.groups(default=""))

    def after(self, line: Line) -> list[Cube]:
        return [self.position.cube.turn(line[:turn]) for turn in range(len(line) + 1)]

    def only_pair(self, name: str) -> str:
        """The slot of "The pair" or "The BL pair"."""
        if name:
            assert len(self.position.pairs) > 1
            return name.strip()
        (slot,) = self.position.pairs
        return slot

    def turns_left(self, made: Line) -> int:
        cube = self.position.cube.turn(made)
        outcome = self.find(cube, self.position.solve, self.position.faces)
        assert isinstance(outcome, Solved)
        return outcome.par

    # each claim takes the words that its pattern caught

    def holds_a_shortest(self, count: str, how: str) -> bool:
        """A shortest line is what remains without so many turns."""
        par = len(self.solutions[0])
        assert len(self.own) - number(count) == par
        found = []
        for kept in combinations(range(len(self.own)), par):
            if tuple(self.own[i] for i in kept) in self.solutions:
                rest = [move for i, move in enumerate(self.own) if i not in kept]
                found.append(Cube().turn(rest) == Cube())
        return any(found) if how == "undo each other" else bool(found)

    def is_opened(self, slot: str, times: str, most: str) -> bool:
        mine = openings(self.own, self.after(self.own), slot)
        limit = number(most) if most else 0
        theirs = [openings(line, self.after(line), slot) for line in self.solutions]
        return mine == number(times or "once") > limit and max(theirs) == limit

    def is_late(self, name: str, stage: str, again: str, at: str, by: str) -> bool:
        slot = self.only_pair(name)
        reached = {"freed": freed, "joined": joined, "slotted": slotted}[stage]
        mine = reached(self.after(self.own), slot)
        theirs = [reached(self.after(line), slot) for line in self.solutions]
        if again:
            first = next(t for t, cube in enumerate(self.after(self.own)) if touches(cube, slot))
            assert first < mine
        return mine == int(at) and mine - number(by) == max(theirs)

    def is_slow(self, name: str, took: str, most: str) -> bool:
        slot = self.only_pair(name)

        def way(line: Line) -> int:
            cubes = self.after(line)
            return slotted(cubes, slot) - joined(cubes, slot)

        theirs = [way(line) for line in self.solutions]
        return way(self.own) == number(took) > number(most or "no") == max(theirs)

    def is_other_order(self, first: str, second: str) -> bool:
        def before(line: Line) -> bool:
            cubes = self.after(line)
            return slotted(cubes, first) < slotted(cubes, second)

        return not before(self.own) and all(map(before, self.solutions))

    def does_without(self, words: str) -> bool:
        faces = {FACE[word] for word in re.findall(r"the (\w+)", words)}
        return faces in map(turned, self.solutions) and faces < turned(self.own)

    def needs_too(self, words: str) -> bool:
        faces = {FACE[word] for word in re.findall(r"the (\w+)", words)}
        return not faces & turned(self.own) and all(faces <= turned(s) for s in self.solutions)

    def parts_after(self, count: str) -> bool:
        made = number(count)
        par = len(self.solutions[0])
        on_the_way = self.turns_left(self.own[:made]) == par - made
        return on_the_way and self.turns_left(self.own[: made + 1]) > par - made - 1

    def parts_at_once(self) -> bool:
        return self.turns_left(self.own[:1]) >= len(self.solutions[0])


CLAIMS: tuple[tuple[str, Callable[..., bool]], ...] = (
    (
        r"Your line holds a shortest one: (\w+) of its turns"
        r" (?:is |are )?(not needed|undo each other)\.",
        Judge.holds_a_shortest,
    ),
    (
        r"Slot (..) was opened(?: (once|twice|\w+ times))?;"
        r" no shortest way opens it(?: more than (once|twice|\w+ times))?\.",
        Judge.is_opened,
    ),
    (
        r"The ?(.. )?pair was (freed|joined|slotted)( for good)? at turn (\d+),"
        r" (\w+) turns? later than needed\.",
        Judge.is_late,
    ),
    (
        r"The ?(.. )?pair took (\w+) turns? from join to slot;"
        r" no shortest way takes (?:more than (\w+)|any)\.",
        Judge.is_slow,
    ),
    (r"Every shortest way slots (..) before (..)\.", Judge.is_other_order),
    (r"A shortest way turns only (.*)\.", Judge.does_without),
    (r"Every shortest way turns (.*) too\.", Judge.needs_too),
    (
        r"Your first (?:(\w+) )?turns? begins? a shortest way; the next turn leaves it\.",
        lambda judge, count: judge.parts_after(count or "one"),
    ),
    (r"No shortest way begins as yours does\.", Judge.parts_at_once),
)


def openings(line: Line, cubes: Sequence[Cube], slot: str) -> int:
    """How often the top carries a piece of a slot that was whole since it was last so carried."""
    count, is_open = 0, False
    for move, before, after in zip(line, cubes, cubes[1:], strict=False):
        if not is_open and move.name[0] == "U" and is_top(before, slot):
            count, is_open = count + 1, True
        elif is_open and is_home(after, slot):
            is_open = False
    return count


def freed(cubes: Sequence[Cube], slot: str) -> int:
    return next(turn for turn, cube in enumerate(cubes) if not is_stuck(cube, slot))


def joined(cubes: Sequence[Cube], slot: str) -> int:
    return for_good([touches(cube, slot) for cube in cubes])


def slotted(cubes: Sequence[Cube], slot: str) -> int:
    return for_good([is_home(cube, slot) for cube in cubes])


def for_good(held: Sequence[bool]) -> int:
    assert held[-1]
    return next(turn for turn in range(len(held)) if all(held[turn:]))


def turned(line: Line) -> set[str]:
    return {move.name[0] for move in line}


# -- lines over par ------------------------------------------------------------------------------

ONE = [cube for slot in SLOTS for cube in one_pair_unsolved(slot)]
TWO = [*pairs_unsolved(2, 4, seed=27), *pairs_unsolved(2, 4, seed=48)]
"""Of par six to nine, computed."""
FAR = 7
"""Turns from the end: no line goes astray earlier, as the way back would take long to find."""
starts = st.sampled_from(ONE) | st.sampled_from(TWO)
IN_AND_OUT = tuple(
    parse_line(f"{face}{there} {top} {face}{back}")
    for face in "RLFB"
    for there, back in (("", "'"), ("'", ""), ("2", "2"))
    for top in ("U", "U'", "U2")
)
"""A slot opened and closed: what one does without need; most other turns are just taken back."""
detours = (
    st.sampled_from(IN_AND_OUT)
    | st.tuples(st.sampled_from(parse_line("U U2 U'")), st.sampled_from(IN_AND_OUT)).map(
        lambda both: (both[0], *both[1])
    )
    | st.lists(st.sampled_from(FACE_MOVES), min_size=1, max_size=3).map(tuple)
)
begun = st.integers(0, 3)


def solutions_of(cube: Cube, find: Find) -> tuple[Line, ...]:
    outcome = find(cube, SLOTS, FACES)
    assert isinstance(outcome, Solved)
    return outcome.solutions


def with_detour(cube: Cube, begun: int, detour: Line, find: Find) -> Line:
    """A line that goes along a shortest way, then astray, then on a shortest way from there.

    Of these the one that takes the least of the detour back.
    """
    shortest = solutions_of(cube, find)[0]
    made = (*shortest[: max(begun, len(shortest) - FAR)], *detour)
    ways = (lines.tidy((*made, *way)).turns for way in solutions_of(cube.turn(made), find))
    return max((until_solved(cube, line) for line in ways), key=len)


def until_solved(cube: Cube, line: Line) -> Line:
    ends = (turn for turn in range(len(line) + 1) if is_goal(cube.turn(line[:turn]), SLOTS))
    return line[: next(ends)]


@settings(max_examples=60)
@given(starts, begun, detours)
def test_the_fact_is_true_and_tells_no_turn(
    find: Find, cube: Cube, begun: int, detour: Line
) -> None:
    """What is said of a line over par, one pair or two, is true; it names slots but no turn."""
    own = with_detour(cube, begun, detour, find)
    solutions = solutions_of(cube, find)
    assume(len(own) > len(solutions[0]))
    position = position_of(cube)
    sentence = fact(position, own, solutions)
    assert Judge(position, own, solutions, find).holds(sentence), sentence
    assert not re.search(r"\b(?!A\b)[A-Zxyz][w2']?(?![A-Za-z])", sentence), sentence


@settings(max_examples=60)
@given(starts, begun, detours)
def test_the_comparison_is_true(find: Find, cube: Cube, begun: int, detour: Line) -> None:
    """Turns called needless are; turns called common begin the nearest line, and none longer."""
    own = with_detour(cube, begun, detour, find)
    solutions = solutions_of(cube, find)
    assume(len(own) > len(solutions[0]))
    seen = compare(position_of(cube), own, solutions)
    nearest = solutions[seen.number]
    assert begins(own[: seen.together], nearest)
    assert seen.together == len(nearest) or not begins(own[: seen.together + 1], nearest)
    if seen.needless:
        left = [move for turn, move in enumerate(own, 1) if turn not in seen.needless]
        assert tuple(left) == nearest
    else:
        assert not any(begins(own[: seen.together + 1], other) for other in solutions)


def begins(begun: Line, line: Line) -> bool:
    """Whether some order of turns of one axis makes `begun` the beginning of a line."""
    return any(ordered[: len(begun)] == begun for ordered in reorderings(line))


def reorderings(line: Line) -> Iterator[Line]:
    """The line with its neighbouring turns of one axis in every order."""
    if len(line) < 2:
        yield line
        return
    for rest in reorderings(line[1:]):
        yield (line[0], *rest)
    if line[0].axis == line[1].axis:
        for rest in reorderings((line[0], *line[2:])):
            yield (line[1], *rest)


# -- each kind of sentence -----------------------------------------------------------------------


CASES = (
    # a shortest line of the position, the player's line, the sentence: computed
    ("R B U2 B' R'", "R U' R' U2 R U R'",
     "The pair was joined at turn 5, three turns later than needed."),
    ("B2 U' R' U R B2", "B2 R2 D' R' D R' B2",
     "The pair was joined at turn 4, one turn later than needed."),
    ("B' U2 R' U2 R B", "B' R L' B2 R' B2 L B",
     "The pair was joined for good at turn 7, four turns later than needed."),
    ("F' U F R U R'", "U2 R U R' U' R U R'",
     "The pair was freed at turn 4, three turns later than needed."),
    ("L U B U2 L' U L B' L'", "F' L F R' U F' U2 L' F R",
     "The BR pair was slotted at turn 10, one turn later than needed."),
    ("R B U2 B' R'", "R B U' B' U' R'",
     "The pair took four turns from join to slot; no shortest way takes more than three."),
    ("D L' U L2 U' B L2 B' L' D'", "D U2 L2 U2 L' U' L' D' R B2 R'",
     "The BL pair took five turns from join to slot; no shortest way takes any."),
    ("L F' L F L2", "R U' L U R' L'",
     "Slot FR was opened; no shortest way opens it."),
    ("L U' L D2 R2 F D2 L2 B", "U B2 R2 B R2 U2 B R U R'",
     "Every shortest way slots FR before BL."),
    ("L U2 F U2 F' U2 L'", "U2 R' F2 D' L' D F2 R",
     "A shortest way turns only the front, the left and the top."),
    ("U' B' U2 B U B' U' B", "R' F' L2 U L U' L2 F R",
     "Every shortest way turns the back too."),
    ("L U2 L U F U' F' L2", "L U2 L F2 D F D' F L2",
     "Your first three turns begin a shortest way; the next turn leaves it."),
    ("U R U R' U' F' U F", "U F R' F' R U2 F' U' F",
     "Your first turn begins a shortest way; the next turn leaves it."),
    ("B2 U2 L' B' L U2 B2", "U2 B' U2 B U B' U' B",
     "No shortest way begins as yours does."),
    ("U' L U' L' B' U' B", "U' F' L U' L' U F U' B' U' B",
     "Your line holds a shortest one: four of its turns are not needed."),
    ("R U' R'", "R B U' B' R'",
     "Your line holds a shortest one: two of its turns undo each other."),
)  # fmt: skip


@pytest.mark.parametrize(("way", "line", "sentence"), CASES)
def test_each_kind_of_fact(way: str, line: str, sentence: str, find: Find) -> None:
    """One line of each kind, the sentence that it earns, and that this is true."""
    position, own = position_after(inverse(parse_line(way))), parse_line(line)
    solutions = solutions_of(position.cube, find)
    assert parse_line(way) in solutions
    assert position.is_goal(position.cube.turn(own))
    assert fact(position, own, solutions) == sentence
    assert Judge(position, own, solutions, find).holds(sentence)


def test_a_line_as_made_is_tidied_first() -> None:
    """Turns taken back by hand, wide turns and rotations change nothing of what is said."""
    made = parse_line("R U' R' y D D' Uw2 Dw2 U2 D2 y' U2 R U R'")
    assert lines.tidy(made).turns == HABIT
    assert fact(HOOK, made, [SHORT]) == fact(HOOK, HABIT, [SHORT])


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("R U' R' U2 R U R'", "Its first turn is yours too; then they part."),
        ("R B U' B' U' R'", "Its first two turns are yours too; then they part."),
        ("F R B U2 B' F' R'",
         "Without turns 1 and 6 (F F'), which undo each other, yours is a shortest one."),
        ("U' R U2 R' U2 R U' R'", "It parts from yours at the first turn."),
    ],
)  # fmt: skip
def test_where_the_lines_part(line: str, words: str) -> None:
    """In one sentence, beside the only shortest line of the hook."""
    assert compared_words(compare(HOOK, parse_line(line), [SHORT])) == words
