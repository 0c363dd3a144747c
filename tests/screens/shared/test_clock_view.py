from __future__ import annotations

import pytest

from game.screens.shared.clock_view import time_text


@pytest.mark.parametrize(
    ("ms", "text"),
    [
        (None, "-"),
        (0, "0.0"),
        (99, "0.0"),
        (100, "0.1"),
        (12_678, "12.6"),
        (59_999, "59.9"),
        (60_000, "1:00.0"),
        (62_345, "1:02.3"),
        (3_600_000, "60:00.0"),
    ],
)
def test_times_are_cut_to_tenths(ms: int | None, text: str) -> None:
    """Cut and never rounded, as WCA Regulations 9f1 cut to hundredths; minutes from sixty on."""
    assert time_text(ms) == text
