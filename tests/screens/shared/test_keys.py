from __future__ import annotations

from importlib import import_module

import pytest
from textual.binding import Binding
from textual.screen import Screen

from game.screens.play.letters import Letters
from game.screens.shared import keys
from game.screens.shared.keys import COMMANDS, of_screen

CLASSES = {
    "play": ("play.casual", "PlayScreen"),
    "round": ("round.screen", "RoundScreen"),
    "curtain": ("round.curtain", "CurtainScreen"),
    "home": ("home.screen", "HomeScreen"),
    "map": ("home.map", "MapScreen"),
    "atlas": ("atlas.screen", "AtlasScreen"),
    "drill": ("drill.screen", "DrillScreen"),
    "runs": ("runs.form", "RunsScreen"),
    "run": ("runs.screen", "RunScreen"),
    "statistics": ("statistics.screen", "StatisticsScreen"),
    "settings": ("home.settings", "SettingsScreen"),
    "watch": ("lines.watch", "WatchScreen"),
    "contests": ("contests.list", "ContestsScreen"),
    "invite": ("contests.invite", "InviteScreen"),
    "contest": ("contests.screen", "ContestScreen"),
    "code": ("contests.code", "CodeScreen"),
    "paste": ("contests.paste", "PasteScreen"),
    "standings": ("contests.standings", "StandingsScreen"),
    "players": ("match.form", "MatchFormScreen"),
    "match": ("match.screen", "MatchScreen"),
    "lines": ("lines.screen", "LinesScreen"),
    "race": ("lines.race", "RaceScreen"),
    "help": ("shared.help", "HelpScreen"),
}


def screen_class(name: str) -> type[Screen[object]]:
    module, class_name = CLASSES[name]
    found: type[Screen[object]] = getattr(import_module(f"game.screens.{module}"), class_name)
    return found


def keys_of(name: str) -> list[str]:
    return [binding.key for binding in keys.bindings(name) if isinstance(binding, Binding)]


def test_every_screen_of_the_table_is_known() -> None:
    """The table names no screen that these tests do not look at."""
    assert {command.screen for command in COMMANDS} == set(CLASSES)


@pytest.mark.parametrize("name", CLASSES)
def test_every_command_is_an_action_of_its_screen(name: str) -> None:
    """No command of the table leads nowhere."""
    kind = screen_class(name)
    missing = [c.action for c in of_screen(name) if not hasattr(kind, f"action_{c.action}")]
    assert missing == []


@pytest.mark.parametrize("name", CLASSES)
def test_no_key_means_two_things(name: str) -> None:
    """Within one screen each key has one command."""
    bound = keys_of(name)
    assert len(bound) == len(set(bound))


@pytest.mark.parametrize("name", CLASSES)
def test_every_screen_shows_how_to_leave_it(name: str) -> None:
    """The key bar of each screen names the key that leaves it."""
    assert any(c.bar for c in of_screen(name) if c.action in ("back", "quit"))


def test_every_turn_key_is_a_move() -> None:
    """The keys that the table calls turns are those that the reading knows, in all three forms."""
    turns = [c for c in of_screen("play") if c.each]
    names = {
        Letters().press(case)[0].name
        for command in turns
        for key in command.keys
        for case in (key, key.upper(), f"shift+{key}")
    }
    letters = [*"FBRLUDMES", *"xyz"]
    assert names == {letter + suffix for letter in letters for suffix in ("", "'")}


def test_letters_are_bound_in_both_cases() -> None:
    """With Caps Lock on, no command of the playing screen falls silent."""
    bound = set(keys_of("play"))
    small = {key for key in bound if len(key) == 1 and key.islower()}
    assert {key.upper() for key in small} <= bound
    assert {f"shift+{key}" for key in small} <= bound
