"""The atlas: what the player does in it.

A row's letter and a column's digit choose a placement, and Enter plays it.
"""

from __future__ import annotations

from textual.widgets import OptionList

from game.atlas import SHEETS, AtlasPuzzle
from game.cube.pair import SLOTS
from game.engine.engine import whole_question
from game.play.playable import Playable
from game.screens.atlas.grid import AtlasGrid
from game.screens.atlas.survey_screen import SurveyScreen
from game.screens.shared import keys
from game.screens.shared.frame import WARN
from game.screens.shared.lists import ChoiceList
from game.search.outcome import Solved

SURE = "w again shows the solutions; later tries are marked as shown."


class AtlasScreen(SurveyScreen):
    """Finds, plays and watches placements."""

    BINDINGS = keys.bindings("atlas")

    # -- playing and watching --------------------------------------------------------------------

    def action_play(self) -> None:
        """Play the cell chosen."""
        par = self.app.pars.of(self.spot)
        if self.spot.cell.is_solved:
            self.say("This one is solved: nothing is to be done.", WARN)
        elif par is None:
            self._wait(self.action_play)
        else:
            self.app.play(AtlasPuzzle(self.spot, par.turns), self.played, self._beside)

    def action_watch(self) -> None:
        """Watch the solutions of the cell chosen; asked twice, since it is marked."""
        text = self.spot.position.text
        if self.spot.cell.is_solved:
            self.say("This one is solved: nothing is to be seen.", WARN)
        elif self._asks(SURE) or self.app.keeper.record(
            lambda records: records.was_shown(text), False
        ):
            self._watch()
        else:
            self.say(SURE, WARN)

    def _was_shown(self, text: str) -> bool:
        return self.app.keeper.record(lambda records: records.was_shown(text), False)

    def _watch(self) -> None:
        from game.screens.lines.watch import WatchScreen  # noqa: PLC0415 - imported where it is pushed

        position = self.spot.position
        outcome = self.app.engine.known(whole_question(position))
        if isinstance(outcome, Solved):
            self.app.keeper.record(lambda records: records.mark_shown(position.text), None)
            self.app.push_screen(WatchScreen(position, outcome.solutions))
        else:
            self._wait(self._watch)

    def _beside(self, puzzle: Playable, step: int) -> AtlasPuzzle | None:
        """The next of the cells picked, as far as pars are known."""
        if not isinstance(puzzle, AtlasPuzzle):
            return None
        cell = self.survey.beside(puzzle.spot.cell, step)
        if cell is None:
            return None
        spot = self.survey.spots(cell)[0]
        par = self.app.pars.of(spot)
        return AtlasPuzzle(spot, par.turns) if par is not None else None

    def played(self, last: Playable, to_map: bool) -> None:
        """Mark what was played."""
        if isinstance(last, AtlasPuzzle):
            self._choose(last.spot)

    # -- from one to another ---------------------------------------------------------------------

    def action_row(self, key: str) -> None:
        """To the row of a letter."""
        self._to_grid()
        letter = key.removeprefix("shift+").lower()
        self._choose(self.survey.in_row(letter, self.spot.name[1]))

    def action_column(self, digit: str) -> None:
        """To the column of a digit."""
        self._to_grid()
        last = len(self.spot.cell.sheet.edges) - 1
        if int(digit) > last:
            self.say(f"The columns here go from 0 to {last}.", WARN)
        else:
            self._choose(self.survey.at(self.spot.cell.row.letter + digit))

    def action_move(self, way: str) -> None:
        """To the next one picked; in the terms, another value."""
        if self._is_choosing:
            if way in ("left", "right"):
                self._step_term(-1 if way == "left" else 1)
            return
        there = self.survey.step(self.spot, way)
        if there is not None:
            self._choose(there)

    def action_sheet(self, key: str) -> None:
        """To the next sheet, or the one before."""
        at = SHEETS.index(self.spot.cell.sheet) + (1 if key == "pagedown" else -1)
        self.action_to_sheet(at % len(SHEETS))

    def action_to_sheet(self, number: int) -> None:
        """To the first cell of a sheet."""
        self._to_grid()
        cells = SHEETS[number].cells
        self._choose(self.survey.first(cells) or self.survey.spots(cells[0])[0])

    def action_top(self) -> None:
        """Turn the top on."""
        if len(self.spot.cell.turns) == 1:
            self.say("Nothing lies in the top layer: turning it changes nothing.", WARN)
        else:
            self._choose(self.spot.turned(1))

    def action_slot(self) -> None:
        """See it at the next slot."""
        at = SLOTS.index(self.spot.slot) + 1
        self._choose(self.spot.at_slot(SLOTS[at % len(SLOTS)]))

    def action_mirror(self) -> None:
        """To the left-right twin."""
        self._choose(self.spot.twin("left-right"))

    def on_atlas_grid_chosen(self, message: AtlasGrid.Chosen) -> None:
        """A square was clicked."""
        self._to_grid()
        self._choose(self.survey.at(message.square))

    def on_atlas_grid_taken(self) -> None:
        """The chosen square was clicked."""
        self.action_play()

    # -- the terms -------------------------------------------------------------------------------

    def action_terms(self) -> None:
        """To the terms, and back."""
        if self._is_choosing:
            self._to_grid()
        else:
            self._arrange(terms=True)
            self.set_focus(self.query_one("#terms"))

    def _to_grid(self) -> None:
        self._arrange(terms=False)
        self.set_focus(self.query_one(AtlasGrid))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter or a click on a term: its next value."""
        event.stop()
        self._step_term(1)

    def _step_term(self, step: int) -> None:
        row = self.query_one("#terms", ChoiceList).highlighted or 0
        terms = self.survey.terms.stepped(row, step, self.survey.pars_found)
        self._look_into(terms)
        spot = terms.spot(self.spot.cell, self.spot.turn)
        if not self.survey.picks(spot.cell):
            spot = self.survey.first() or spot
        self._choose(spot)

    def key_label(self, action: str) -> str | None:
        """What the key bar calls a command now."""
        if action == "terms" and self._is_choosing:
            return "to the grid"
        return None

    def action_back(self) -> None:
        """From the terms to the grid, from there home."""
        if self._is_choosing:
            self._to_grid()
        else:
            super().action_back()
