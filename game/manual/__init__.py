"""The manual: pages of Markdown beside this module, one a subject; `index` lists them."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from game.errors import ManualError, did_you_mean, printable

INDEX = "index"
_FOLDER = Path(__file__).parent
_ROW = re.compile(r"^\| \[(\w+)\]\(\w+\.md\) \| (.*) \|$", re.MULTILINE)


@cache
def subjects() -> dict[str, str]:
    """Subject -> what its page is about, in the order of the index."""
    return dict(_ROW.findall(page(INDEX)))


def page(subject: str) -> str:
    """The page of a subject, as Markdown. Raises ManualError for a subject that has none."""
    if subject != INDEX and subject not in subjects():
        hint = did_you_mean(subject, list(subjects()))
        raise ManualError(f'there is no page "{printable(subject, 40)}"{hint}')
    return (_FOLDER / f"{subject}.md").read_text(encoding="utf-8")
