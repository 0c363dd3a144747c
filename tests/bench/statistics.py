"""How long the statistics of a long life take: 100,000 attempts."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory

from game.keeping.statistics import recent_pauses, statistics_of
from game.records import Records
from tests.bench.table import Row, seconds_each
from tests.many_attempts import write

ATTEMPTS = 100_000
RUNS = 7
GOAL = "under 1 s"


def rows() -> Iterator[Row]:
    """Everything up to the first figures, each time from new connections; then the pauses."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "records.db"
        write(path, ATTEMPTS)
        yield Row(f"statistics of {ATTEMPTS:,} attempts", seconds_each(_count, [path] * RUNS), GOAL)
        yield Row("pauses of the last of them", seconds_each(_pauses, [path] * RUNS))


def _count(path: Path) -> None:
    assert statistics_of(path).whole.tried == ATTEMPTS


def _pauses(path: Path) -> None:
    with closing(Records(path)) as records:
        recent_pauses(records.all_attempts(newest_first=True))
