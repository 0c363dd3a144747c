"""What a game without a terminal need not do: draw unseen pictures, find anew what was found."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import pytest
from rich.console import RenderableType
from textual import screen
from textual._compositor import Compositor
from textual.css import stylesheet
from textual.css.model import RuleSet
from textual.css.parse import parse
from textual.css.tokenize import Token, tokenize_values

from game.cube.cube import Cube
from game.packs import Pack, load_pack, pack_folder
from game.search.outcome import Outcome, is_finished
from game.search.shortest import search

TICK = 0.0001
"""Seconds between a change and the layout that follows it; Textual waits for up to 16 ms."""


def undrawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """A screen is laid out at once, but drawn only as a whole, when it is looked at."""
    drawn = Compositor.render_update

    def render_update(
        compositor: Compositor, full: bool = False, **options: Any
    ) -> RenderableType | None:
        if full:
            return drawn(compositor, full, **options)
        compositor._dirty_regions.clear()
        return None

    monkeypatch.setattr(Compositor, "render_update", render_update)
    monkeypatch.setattr(screen, "UPDATE_PERIOD", TICK)


@cache
def _tokens(variables: frozenset[tuple[str, str]]) -> dict[str, list[Token]]:
    """The variables of a theme: one object for the same variables, which lives to the end."""
    return tokenize_values(dict(variables))


_RULES: dict[tuple[object, ...], list[RuleSet]] = {}
"""Rules by all that they follow from. Nobody changes them: a stylesheet keeps them, too."""


def _rules(
    scope: str,
    css: str,
    read_from: tuple[str, str],
    *,
    variable_tokens: dict[str, list[Token]],
    **options: Any,
) -> list[RuleSet]:
    key = (scope, css, read_from, id(variable_tokens), *sorted(options.items()))
    if key not in _RULES:
        found = parse(scope, css, read_from, variable_tokens=variable_tokens, **options)
        _RULES[key] = list(found)
    return _RULES[key]


def parsed_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Styles are parsed once for all games of a run."""
    monkeypatch.setattr(
        stylesheet, "tokenize_values", lambda values: _tokens(frozenset(values.items()))
    )
    monkeypatch.setattr(stylesheet, "parse", _rules)


_FOUND: dict[tuple[object, ...], Outcome] = {}
"""What searches have found, by all that it follows from."""


def _found(
    cube: Cube, solve: tuple[str, ...], faces: str, *, first: bool, **others: Any
) -> Outcome:
    key = (cube, solve, faces, first)
    if key not in _FOUND:
        outcome = search(cube, solve, faces, first=first, **others)
        if not is_finished(outcome, first=first):
            return outcome
        _FOUND[key] = outcome
    return _FOUND[key]


def searched_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """The engine finds the same in every game of a run; the second time it need not search."""
    monkeypatch.setattr("game.search.shortest.search", _found)


_read = cache(load_pack)


def _pack(path: Path) -> Pack:
    return _read(path) if path.parent == pack_folder() else load_pack(path)


def read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """The packs that come with the program are read once for all games of a run."""
    monkeypatch.setattr("game.packs.folder.load_pack", _pack)
    monkeypatch.setattr("game.packs.load_pack", _pack)
