"""How a run stands beside the best of its kind."""

from __future__ import annotations

import pytest

from game.modes import DASH, HOURGLASS
from game.runs import Run, best, is_record, pace_words
from tests.runs.test_run import done, run

BEST = run(DASH, 3, done(500), done(500), done(500))


def test_the_best_of_some() -> None:
    """The one with the least score; those without a rank are passed over."""
    slower = run(DASH, 3, done(500), done(500), done(600))
    broken = run(DASH, 3, done(100), done(100), done(100), breaks=1)
    assert best([slower, broken, BEST]) is BEST
    assert best([broken]) is None
    assert best([]) is None


def test_a_record() -> None:
    """The first ranked run of its kind, or one better than the best; as good is none."""
    faster = run(DASH, 3, done(500), done(500), done(499))
    assert is_record(BEST, None)
    assert is_record(faster, BEST)
    assert not is_record(BEST, BEST)
    assert not is_record(BEST, faster)
    assert not is_record(run(DASH, 3, done(1)), BEST)


@pytest.mark.parametrize(
    ("times", "now", "words"),
    [
        ((), 0, ""),
        ((), 500, ""),
        ((), 530, "0.30 s behind your best"),
        ((450,), 0, "0.50 s ahead of your best"),
        ((450,), 549, "0.50 s ahead of your best"),
        ((450,), 551, "0.01 s behind your best"),
        ((500,), 10, "level with your best"),
        ((600, 500), 0, "1.00 s behind your best"),
        ((400, 400), 900, "2.00 s behind your best"),
    ],
)
def test_a_dash_beside_the_best(times: tuple[int, ...], now: int, words: str) -> None:
    """As at the end of the position before, until more time has passed than the best needed."""
    assert pace_words(run(DASH, 3, *map(done, times)), BEST, now) == words


@pytest.mark.parametrize(
    ("times", "now", "words"),
    [
        ((), 0, "level with your best"),
        ((), 500, "one position behind your best"),
        ((300,), 0, "one position ahead of your best"),
        ((300, 300), 300, "one position ahead of your best"),
        ((300, 300), 600, "level with your best"),
        ((1000,), 0, "one position behind your best"),
    ],
)
def test_an_hourglass_beside_the_best(times: tuple[int, ...], now: int, words: str) -> None:
    """As many positions as the best had at the same time."""
    beside: Run = run(HOURGLASS, 13, *map(done, (500, 500, 400)))
    assert beside.solved == 2
    assert pace_words(run(HOURGLASS, 13, *map(done, times)), beside, now) == words


def test_without_another_nothing_is_said() -> None:
    """The first run of its kind has no pace."""
    assert pace_words(BEST, None, 0) == ""
