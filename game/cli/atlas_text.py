"""The atlas on paper: as plain text, as Markdown tables, as JSON.

The keys of the JSON object, in order:

    slot         the pair's slot
    open         slots that are left open by choice, a list
    complete     whether every par is known
    placements   a list of objects:
        name         row and first column
        columns      the digits of its columns
        group        what kind it is
        words        where both pieces lie, as listed
        open         all slots that are open: those chosen and those that hold a piece of the pair
        tops         for each turn of the top that makes another position: `top` (the turn, ""
                     for as listed), `position` (its canonical text), `par`, `solutions` (how
                     many shortest ones); par and solutions are null while they are not known
        par          the least of the pars, null until all are known
        solutions    how many shortest solutions there are at the turns with the least par
        twins        mirror image -> its `name` and `slot`
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import groupby

from game.atlas import TOP_TURNS, Facts, Group, Pars, Spot
from game.atlas.words import Colours, corner_short, edge_short
from game.cube.pair import SLOTS
from game.cube.symmetry import TWINS
from game.cube.words import pair_words

Placement = tuple[Spot, ...]
"""A cell at each turn of the top."""
HEADS = ("", "-", "U", "U2", "U'", "least", "solutions", "twin", "corner", "edge")
WIDTHS = (3, 3, 3, 3, 3, 6, 10, 5)
"""Columns of the text table up to the words; the first begins left, the others end right."""


def text(wanted: Sequence[Spot], pars: Pars, colours: Colours) -> str:
    """The whole atlas in lines of at most 80 columns, a table for each group."""
    parts = [_introduction(wanted[0])]
    for group, placements in _groups(wanted):
        rows = [_cells(placement, pars, colours) for placement in placements]
        parts.append("\n".join([_heading(group, placements), *map(_text_row, (HEADS, *rows))]))
    return "\n\n".join(parts)


def markdown(wanted: Sequence[Spot], pars: Pars, colours: Colours) -> str:
    """The same as Markdown tables under headings."""
    spot = wanted[0]
    parts = [f"# Atlas of the pair at {spot.slot}", _introduction(spot)]
    for group, placements in _groups(wanted):
        rows = [_cells(placement, pars, colours) for placement in placements]
        rule = ["---"] + ["--:"] * 6 + ["---"] * 3
        table = map(_markdown_row, (("name", *HEADS[1:]), rule, *rows))
        parts += [f"## {_heading(group, placements)}", "\n".join(table)]
    return "\n\n".join(parts)


def as_json(wanted: Sequence[Spot], pars: Pars, colours: Colours) -> str:
    """The same as one line of JSON, ASCII only."""
    placements = [placement for _, group in _groups(wanted) for placement in group]
    told = {
        "slot": wanted[0].slot,
        "open": list(wanted[0].chosen),
        "complete": all(pars.of(spot) is not None for spot in wanted),
        "placements": [_object(placement, pars, colours) for placement in placements],
    }
    return json.dumps(told)


FORMS: Mapping[str, Callable[[Sequence[Spot], Pars, Colours], str]] = {
    "text": text,
    "markdown": markdown,
    "json": as_json,
}


def _groups(wanted: Iterable[Spot]) -> Iterable[tuple[Group, list[Placement]]]:
    """The placements of each group, both in the order of `Group`."""
    placements = [tuple(spots) for _, spots in groupby(wanted, key=lambda spot: spot.cell)]
    for group in Group:
        yield group, [p for p in placements if p[0].cell.group is group]


def _introduction(spot: Spot) -> str:
    kept = [slot for slot in SLOTS if slot != spot.slot and slot not in spot.chosen]
    open_ = f"; open: {' '.join(spot.chosen)}" if spot.chosen else ""
    return (
        f"The pair at {spot.slot}; kept: {' '.join(kept) or 'no other slot'}{open_}.\n"
        "Slots that hold a piece of the pair are open. Par is told as listed (-) and\n"
        "after each turn of the top, the solutions for the turns with the least par."
    )


def _heading(group: Group, placements: Sequence[Placement]) -> str:
    return f"{group.value} ({len(placements)})"


def _cells(placement: Placement, pars: Pars, colours: Colours) -> tuple[str, ...]:
    """A row of a table, as `HEADS` names it."""
    spot = placement[0]
    facts = _facts(placement, pars)
    tops = ["-" if par is None else str(par.turns) for par in facts.pars]
    least = facts.least
    return (
        spot.cell.name,
        *(tops + [""] * (len(TOP_TURNS) - len(tops))),
        *(("-", "-") if least is None else (str(least), str(facts.solutions))),
        spot.twin("diagonal").cell.name,
        corner_short(spot.place.corner, spot.slot, colours),
        edge_short(spot.place.edge, spot.slot, colours),
    )


def _facts(placement: Placement, pars: Pars) -> Facts:
    return Facts(tuple(pars.of(spot) for spot in placement))


def _text_row(texts: Sequence[str]) -> str:
    first, *numbers = (
        f"{text:<{width}}" if not column else f"{text:>{width}}"
        for column, (text, width) in enumerate(zip(texts, WIDTHS, strict=False))
    )
    corner, edge = texts[len(WIDTHS) :]
    return f"{first}{''.join(numbers)}  {corner:<21} {edge}".rstrip()


def _markdown_row(texts: Iterable[str]) -> str:
    return f"| {' | '.join(texts)} |"


def _object(placement: Placement, pars: Pars, colours: Colours) -> dict[str, object]:
    spot = placement[0]
    facts = _facts(placement, pars)
    twins = {name: spot.twin(name) for name in TWINS}
    return {
        "name": spot.cell.name,
        "columns": spot.cell.columns,
        "group": spot.cell.group.value,
        "words": pair_words(spot.place, spot.slot, colours),
        "open": list(spot.open),
        "tops": [
            {
                "top": TOP_TURNS[each.turn],
                "position": each.position.text,
                "par": par.turns if par else None,
                "solutions": par.solutions if par else None,
            }
            for each, par in zip(placement, facts.pars, strict=True)
        ],
        "par": facts.least,
        "solutions": facts.solutions if facts.least is not None else None,
        "twins": {
            name: {"name": twin.cell.name, "slot": twin.slot} for name, twin in twins.items()
        },
    }
