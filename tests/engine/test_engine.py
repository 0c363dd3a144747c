from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from threading import Event, Thread
from typing import Any

import pytest

from game.cube.cube import Cube
from game.cube.moves import parse_line
from game.engine.answers import Answer
from game.engine.engine import (
    Advanced,
    Answered,
    AnsweredByPairs,
    Engine,
    Failed,
    Preparing,
    first_question,
    hand_question,
    pairs_question,
    whole_question,
)
from game.engine.large_tables import LargeTables
from game.play.position import Position, position_after
from game.search.cache import load_tables
from game.search.growth import Growing
from game.search.outcome import Outcome, Solved
from game.search.pair_by_pair import PairByPair
from game.search.shortest import search

PATIENCE_SECONDS = 60.0
SCRAMBLED = "R U' F2 L D B' R2 U F' L2 D' B U2 R' F"
Tell = Callable[[Growing], None]


class Asker:
    """Takes answers as a screen does."""

    def __init__(self) -> None:
        self.heard: list[Answer] = []

    def hear(self, answer: Answer) -> None:
        self.heard.append(answer)

    def answers(self) -> list[Answered]:
        return [answer for answer in self.heard if isinstance(answer, Answered)]


def until(condition: Callable[[], object]) -> None:
    """Wait, within a bound, for what another thread does."""
    end = time.monotonic() + PATIENCE_SECONDS
    while not condition():
        assert time.monotonic() < end, "it never came to that"
        time.sleep(0.005)


def position(setup: str) -> Position:
    return position_after(parse_line(setup))


@pytest.fixture
def engine(table_folder: Path) -> Engine:
    return Engine(table_folder)


def test_a_question_is_answered(engine: Engine) -> None:
    """Par and the solutions of three turns come as a message, and are known from then on."""
    asker = Asker()
    question = whole_question(position("R U R'"))
    engine.ask(question, asker)
    engine.start()
    until(asker.answers)
    outcome = asker.answers()[0].outcome
    assert isinstance(outcome, Solved)
    assert (outcome.par, outcome.complete) == (3, True)
    assert parse_line("R U' R'") in outcome.solutions
    assert engine.known(question) == outcome
    engine.stop()


def test_the_hand_is_asked_with_its_faces_only(engine: Engine) -> None:
    """The hook is five turns with all faces and seven with those at the hands."""
    hook = position("R B U2 B' R'")
    asker = Asker()
    engine.ask(whole_question(hook), asker)
    engine.ask(hand_question(hook), asker)
    engine.start()
    until(lambda: len(asker.answers()) == 2)
    outcomes = [answer.outcome for answer in asker.answers()]
    assert [o.par for o in outcomes if isinstance(o, Solved)] == [5, 7]
    engine.stop()


def test_an_answer_is_kept(engine: Engine, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same question again is answered without a second search."""
    first, second = Asker(), Asker()
    question = whole_question(position("R U R'"))
    engine.ask(question, first)
    engine.start()
    until(first.answers)
    searched = []
    monkeypatch.setattr("game.search.shortest.search", lambda *_, **__: searched.append(1))
    engine.ask(question, second)
    until(second.answers)
    assert second.answers()[0].outcome == first.answers()[0].outcome
    assert searched == []
    engine.stop()


def test_what_is_forgotten_is_not_answered(engine: Engine) -> None:
    """Of two askers the one that forgets hears nothing, the other is answered."""
    gone, here = Asker(), Asker()
    engine.ask(whole_question(position("R U R'")), gone)
    engine.ask(whole_question(position("L' U' L")), here)
    engine.forget(gone)
    engine.start()
    until(here.answers)
    assert gone.heard == []
    engine.stop()


def test_a_patient_question_waits_for_all_others(engine: Engine) -> None:
    """Who asks patiently is answered after those who came later, and hears nothing but answers."""
    asker = Asker()
    patient = [whole_question(position(setup)) for setup in ("R U R'", "L' U' L")]
    hurried = whole_question(position("F' U' F"))
    for question in patient:
        engine.ask(question, asker, patient=True)
    engine.ask(hurried, asker)
    engine.start()
    until(lambda: len(asker.answers()) == 3)
    assert [answer.question for answer in asker.answers()] == [hurried, *patient]
    told = {message.question for message in asker.heard if isinstance(message, Advanced)}
    assert told == {hurried}
    engine.stop()


def test_a_long_search_tells_its_bound_and_stops(engine: Engine) -> None:
    """Four pairs take long: the bound is told meanwhile, and stopping ends the thread."""
    asker = Asker()
    engine.ask(whole_question(position(SCRAMBLED)), asker)
    engine.start()
    until(lambda: any(isinstance(message, Advanced) for message in asker.heard))
    engine.stop()
    until(lambda: not engine._thread.is_alive())
    assert asker.answers() == []


def test_one_search_answers_all_who_ask(engine: Engine, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two who ask the same are both answered by one search, which goes on when one forgets."""
    first, second, gone = Asker(), Asker(), Asker()
    question = whole_question(position("R U R'"))
    searches = counted(monkeypatch)
    for asker in (gone, first, second):
        engine.ask(question, asker)
    engine.forget(gone)
    engine.start()
    until(lambda: first.answers() and second.answers())
    assert gone.heard == []
    assert searches == [question.cube]
    engine.stop()


def test_a_patient_search_breaks_off_for_others(engine: Engine) -> None:
    """A long search that nobody is in a hurry for lets a short one pass, and is begun again."""
    patient, hurried = Asker(), Asker()
    long = whole_question(position(SCRAMBLED))
    engine.ask(long, patient, patient=True)
    engine.start()
    until(lambda: engine._running is not None)
    engine.ask(whole_question(position("R U R'")), hurried)
    until(hurried.answers)
    until(lambda: engine._running is not None and engine._running.question == long)
    assert patient.heard == []
    engine.stop()


def test_the_first_way_is_enough_where_that_is_asked(engine: Engine) -> None:
    """A question for one way is told one, and is another question than that for all."""
    asker = Asker()
    three_ways = position("R U R' U'")
    engine.ask(first_question(three_ways), asker)
    engine.ask(whole_question(three_ways), asker)
    engine.start()
    until(lambda: len(asker.answers()) == 2)
    found = [answer.outcome for answer in asker.answers()]
    assert [(o.complete, len(o.solutions)) for o in found if isinstance(o, Solved)] == [
        (False, 1),
        (True, 3),
    ]
    engine.stop()


def test_pair_by_pair_is_told(engine: Engine) -> None:
    """Who asks for the best total pair by pair hears of it; of one pair it cannot be asked."""
    asker = Asker()
    question = pairs_question(position("F U F2 U F"))
    assert question is not None
    engine.ask(question, asker)
    engine.start()
    until(lambda: asker.heard)
    (message,) = asker.heard
    assert isinstance(message, AnsweredByPairs)
    assert isinstance(message.found, PairByPair)
    assert message.found.total == 6
    assert pairs_question(position("R U R'")) is None
    engine.stop()


def counted(monkeypatch: pytest.MonkeyPatch) -> list[Cube]:
    """The cubes that are searched from now on."""
    searched: list[Cube] = []

    def counting(cube: Cube, *rest: object, **named: Any) -> Outcome:
        searched.append(cube)
        return search(cube, *rest, **named)

    monkeypatch.setattr("game.search.shortest.search", counting)
    return searched


def test_a_fault_in_the_thread_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever goes wrong in the thread, who waits hears of it, and who asks later too."""

    def broken(folder: Path) -> None:
        raise MemoryError("no room for the tables")

    monkeypatch.setattr("game.search.cache.load_tables", broken)
    engine = Engine(tmp_path)
    waiting, later = Asker(), Asker()
    engine.ask(whole_question(position("R U R'")), waiting)
    engine.start()
    until(lambda: waiting.heard)
    engine.ask(whole_question(position("R U R'")), later)
    problems = [m.problem for m in (*waiting.heard, *later.heard) if isinstance(m, Failed)]
    assert problems == ["The search has stopped: no room for the tables"] * 2


# -- large tables --------------------------------------------------------------------------------


@pytest.fixture
def held(engine: Engine, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Every search is long, and the large tables come when the test says, perhaps with a fault."""
    release, problem = Event(), [""]
    monkeypatch.setattr("game.search.cache.ENOUGH", 1)

    def work(large: LargeTables) -> None:
        large._tell("They are half done")
        release.wait(PATIENCE_SECONDS)
        large._done(load_tables(large._cache), problem[0])

    monkeypatch.setattr(LargeTables, "_work", work)

    def come(fault: str = "") -> None:
        problem[0] = fault
        release.set()

    engine._large._thread = Thread(target=engine._large._work, daemon=True)
    return come


def states(asker: Asker) -> list[str]:
    return [message.state for message in asker.heard if isinstance(message, Preparing)]


@pytest.mark.parametrize("fault", ["", "They cannot be built"])
def test_a_long_search_waits_for_the_large_tables(
    engine: Engine, held: Callable[[str], None], fault: str
) -> None:
    """Its asker is told how far they are; it is answered when they are there, or cannot be."""
    asker = Asker()
    engine.ask(whole_question(position("R U R' F' U' F")), asker)
    engine.start()
    until(lambda: states(asker))
    assert asker.answers() == []
    held(fault)
    until(asker.answers)
    outcome = asker.answers()[0].outcome
    assert isinstance(outcome, Solved)
    assert outcome.complete
    assert states(asker) == ["They are half done", *([fault] if fault else [])]
    engine.stop()


def test_meanwhile_others_are_answered(engine: Engine, held: Callable[[str], None]) -> None:
    """What the small tables tell at once does not wait, and what is forgotten is not answered."""
    waiting, quick = Asker(), Asker()
    engine.ask(whole_question(position("R U R' F' U' F")), waiting)
    engine.start()
    until(lambda: states(waiting))
    engine.ask(whole_question(position("")), quick)
    until(quick.answers)
    assert waiting.answers() == []
    engine.forget(waiting)
    held("")
    engine.ask(whole_question(position("R U R'")), quick)
    until(lambda: len(quick.answers()) == 2)
    assert waiting.answers() == []
    engine.stop()
