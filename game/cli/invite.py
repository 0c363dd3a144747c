"""`pairwright invite`: a contest as text for a chat."""

from __future__ import annotations

import argparse
import json
from typing import TYPE_CHECKING

from game.cli.exits import Exit
from game.cube.geometry import FACES
from game.errors import PairwrightError, did_you_mean, printable
from game.folders import Folders
from game.play.position import VIEWS

if TYPE_CHECKING:
    from game.deal.selection import Selection
    from game.friends.contest import Contest
    from game.packs import Pack
    from game.play.position import Position

NAME = "invite"
HELP = "make an invite: positions for friends to play, as text for a chat"
DESCRIPTION = """\
Make an invite: text that carries the positions of a contest, to be pasted into a chat. Whoever
plays it sends a card back, and pairwright standings ranks the cards.

The positions are those that each SETUP, in double quotes, makes of a solved cube; or levels of
packs; or some of a pack; or some dealt at random:

    pairwright invite "R U R'" "F' U2 F" --title Warm-up
    pairwright invite --level 01-side-by-side/half-a-lap
    pairwright invite --pack 04-uneasy-neighbours --number 3
    pairwright invite --deal 2 --open 1 --by time"""

BY = ("turns", "time")
"""As in `game.friends.contest`, which no other command needs when it starts."""
USUAL_NUMBER = 5
"""Positions of a pack or deal unless chosen otherwise."""


def define(parser: argparse.ArgumentParser) -> None:
    """The arguments of this command."""
    parser.add_argument("--title", default="", help="what the contest is called")
    parser.add_argument("--by", choices=BY, default=BY[0], help="what is ranked first")
    parser.add_argument(
        "--inspection", action="store_true", help="each position is inspected first, by WCA rules"
    )
    parser.add_argument(
        "--level", action="append", metavar="PACK/LEVEL", help="a level; may be given several times"
    )
    parser.add_argument("--pack", metavar="PACK", help="positions of a pack, by its file's name")
    parser.add_argument(
        "--deal", type=int, metavar="PAIRS", help="random positions with so many pairs in play"
    )
    parser.add_argument(
        "--number", type=int, metavar="N", help=f"positions of a pack or deal: {USUAL_NUMBER}"
    )
    parser.add_argument("--seed", help="a pack or deal gives the same again for the same SEED")
    parser.add_argument("--slots", help="of a deal: slots that may be in play, like FR,BR")
    parser.add_argument(
        "--open", default="", help="of setups: slots left open, like FL,BL; of a deal: how many"
    )
    parser.add_argument(
        "--faces", default=FACES, help="of setups and deals: faces that may turn, like RU"
    )
    parser.add_argument(
        "--view", choices=VIEWS, default=VIEWS[0], help="of setups and deals: what is shown"
    )
    parser.add_argument("--json", action="store_true", help="answer with one JSON object")
    parser.add_argument("setups", nargs="*", metavar="SETUP", help="turns")


def run(arguments: argparse.Namespace, folders: Folders) -> int:
    """Print the invite."""
    from game.friends.codes import invite_code  # noqa: PLC0415 - the rules only for this command
    from game.friends.contest import Contest, Rules  # noqa: PLC0415

    rules = Rules(arguments.by, arguments.inspection)
    contest = Contest(arguments.title, _positions(arguments, folders), rules)
    print(_json(contest) if arguments.json else invite_code(contest))
    return Exit.DONE


def _json(contest: Contest) -> str:
    from game.friends.codes import invite_code, key  # noqa: PLC0415 - likewise

    return json.dumps(
        {
            "invite": invite_code(contest),
            "belongs": key(contest),
            "title": contest.title,
            "by": contest.rules.by,
            "inspection": contest.rules.inspection,
            "positions": [position.text for position in contest.positions],
        }
    )


def _positions(arguments: argparse.Namespace, folders: Folders) -> tuple[Position, ...]:
    """The positions asked for. Raises PairwrightError unless one way of choosing them is given."""
    ways = (arguments.setups, arguments.level, arguments.pack, arguments.deal)
    if sum(way not in (None, []) for way in ways) != 1:
        raise PairwrightError("name positions in one way: SETUPs, --level, --pack or --deal")
    if arguments.setups:
        return _of_setups(arguments)
    if arguments.level:
        return _of_levels(arguments.level, folders)
    if arguments.pack:
        from game.deal.selection import FromPack  # noqa: PLC0415 - only for a pack

        return _first(FromPack(_pack(arguments.pack, folders)), arguments)
    return _dealt(arguments)


def _of_setups(arguments: argparse.Namespace) -> tuple[Position, ...]:
    from game.cube.moves import parse_line  # noqa: PLC0415 - only for setups
    from game.cube.pair import parse_faces, parse_slots  # noqa: PLC0415
    from game.play.position import position_after  # noqa: PLC0415

    open_, faces = parse_slots(arguments.open), parse_faces(arguments.faces)
    return tuple(
        position_after(parse_line(setup), open_, faces, arguments.view)
        for setup in arguments.setups
    )


def _dealt(arguments: argparse.Namespace) -> tuple[Position, ...]:
    from game.cube.pair import SLOTS, parse_faces, parse_slots  # noqa: PLC0415 - only for a deal
    from game.deal.deal import HANDS, Kind  # noqa: PLC0415
    from game.deal.selection import FromDeal  # noqa: PLC0415

    left_open = arguments.open or "0"
    if not (left_open.isascii() and left_open.isdigit() and len(left_open) == 1):
        raise PairwrightError("--open: how many slots a deal leaves open, as a number")
    slots = SLOTS if arguments.slots is None else parse_slots(arguments.slots)
    faces = HANDS if arguments.faces == HANDS else parse_faces(arguments.faces)
    kind = Kind(arguments.deal, int(left_open), arguments.view, slots, faces)
    return _first(FromDeal(kind), arguments)


def _first(selection: Selection, arguments: argparse.Namespace) -> tuple[Position, ...]:
    """So many positions of a selection, of the seed given or of one thrown."""
    from game.deal.selection import first_positions  # noqa: PLC0415
    from game.friends.contest import MAX_POSITIONS  # noqa: PLC0415 - the rules only for this command

    number = USUAL_NUMBER if arguments.number is None else arguments.number
    if not 1 <= number <= MAX_POSITIONS:
        raise PairwrightError(f"--number: a contest has 1 to {MAX_POSITIONS} positions")
    from secrets import token_hex  # noqa: PLC0415 - not when another command starts

    seed = token_hex(16) if arguments.seed is None else printable(arguments.seed, 200)
    return first_positions(selection, seed, number)


def _of_levels(keys: list[str], folders: Folders) -> tuple[Position, ...]:
    from game.packs import puzzles  # noqa: PLC0415 - only for levels

    found = []
    for key in keys:
        pack = _pack(key.partition("/")[0], folders)
        known = {puzzle.key: puzzle.position for puzzle in puzzles(pack)}
        if key not in known:
            problem = f'no level "{printable(key, 80)}"'
            raise PairwrightError(problem + did_you_mean(key[:200], list(known)))
        found.append(known[key])
    return tuple(found)


def _pack(name: str, folders: Folders) -> Pack:
    """The pack of that name. Raises PairwrightError."""
    from game.packs import all_packs, pack_folder  # noqa: PLC0415 - only for packs

    packs, _ = all_packs(pack_folder(), folders.packs)
    known = {pack.id: pack for pack in packs}
    if name not in known:
        problem = f'no pack "{printable(name, 80)}"'
        hint = did_you_mean(name[:200], list(known)) or f"; there are {', '.join(known)}"
        raise PairwrightError(problem + hint)
    return known[name]
