"""`pairwright card`: the card of a contest that was played, once more."""

from __future__ import annotations

import argparse
import json
import sys
from contextlib import closing
from typing import TYPE_CHECKING

from game.cli.exits import Exit
from game.errors import ContestError, printable
from game.folders import Folders
from game.modes import CONTEST, DAY

if TYPE_CHECKING:
    from game.friends.standings import Pars
    from game.keeping.entries import Entry
    from game.records import Records

NAME = "card"
HELP = "print the card of a contest that was played"
DESCRIPTION = """\
Print the card of a contest or a day's five that was played to its end, once more: a few words, then
the code. CONTEST is an invite, the key that cards name it by, or the date of a day's five, like
2026-11-25; without it, it is the one that was entered last. The name on it is the player's name in
the settings, unless --name gives another."""


def define(parser: argparse.ArgumentParser) -> None:
    """The arguments of this command."""
    parser.add_argument("--name", help="the player's name")
    parser.add_argument("--json", action="store_true", help="answer with one JSON object")
    parser.add_argument("contest", nargs="?", metavar="CONTEST", help="an invite, a key or a date")


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Print the card."""
    from game.friends.card_text import card_text  # noqa: PLC0415 - the rules only for this command
    from game.friends.codes import card_code  # noqa: PLC0415
    from game.records import Records  # noqa: PLC0415 - SQLite when it is needed

    name = arguments.name or _player(folders)
    with closing(Records(folders.records)) as records:
        entry = _entry(records, arguments.contest)
        card = entry.entered.card(name)
        contest = entry.entered.contest
        text = card_text(contest, card, _pars(records, entry))
    if arguments.json:
        told = {"card": card_code(card), "belongs": card.to, "name": name, "title": contest.title}
        text = json.dumps(told)
    print(text)
    return Exit.DONE


def _player(folders: Folders) -> str:
    """The name in the settings. Raises ContestError if no name is set."""
    from game.settings import load_settings  # noqa: PLC0415 - only where no name is given

    settings, told = load_settings(folders.settings)
    if told:
        print(told, file=sys.stderr)
    if not settings.player:
        raise ContestError("a card has the name of its player: give it with --name")
    return settings.player


def _entry(records: Records, wanted: str | None) -> Entry:
    """The contest that is wanted, or the last one entered. Raises ContestError for none."""
    from game.friends.codes import PREFIX, key, read_invite  # noqa: PLC0415 - the rules only here
    from game.keeping.entries import entries_in  # noqa: PLC0415

    kind = wanted
    if wanted is not None and PREFIX in wanted.upper():
        kind = key(read_invite(wanted))
    modes = (CONTEST, DAY) if kind is None or kind.isprintable() else ()  # bytes that are no text
    found = [entry for mode in modes for entry in entries_in(records, mode, kind)]
    if kind is None:
        found = [entry for entry in found if entry.entered.is_finished]
    if not found:
        which = "no contest" if wanted is None else f'no contest "{printable(wanted, 40)}"'
        raise ContestError(f"{which} was played here")
    return max(found, key=lambda entry: (entry.entered.is_finished, entry.run or 0))


def _pars(records: Records, entry: Entry) -> Pars:
    """The pars that are kept with the attempts."""
    attempts = records.attempts_of(entry.run) if entry.run is not None else ()
    known = {attempt.position: attempt.par for attempt in attempts}
    return [known.get(position.text) for position in entry.entered.contest.positions]
