"""The atlas: a sheet of placements as a grid, the chosen one in words and as a cube beside it.

A row's letter and a column's digit choose a placement, and Enter plays it. Pars are searched in
the background; the grid fills as they come.
"""

from __future__ import annotations

from collections.abc import Iterable

from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import OptionList, Static

from game.atlas import ENTRIES, SHEETS, AtlasPuzzle, Entry, Pars, Sheet, Spot
from game.cube.pair import SLOTS
from game.playable import Playable
from game.screens import atlas_words, commands
from game.screens.atlas_grid import AtlasGrid, Cell, Chart
from game.screens.atlas_survey import Survey
from game.screens.atlas_terms import Terms
from game.screens.atlas_words import Met
from game.screens.engine import Answered, Failed, Question, whole_question
from game.screens.frame import FramedScreen
from game.screens.key_bar import KeyBar
from game.screens.lists import ChoiceList
from game.screens.looks import focuses, look_of
from game.screens.preview import Preview
from game.search.outcome import Solved

FILL_SECONDS = 0.1
"""Between two times that what was found is shown."""
HIDDEN = "?"
"""In place of a par that is not to be told."""
MANY_ROWS = 6
"""More rows of a sheet than this leave no empty line in a low window."""
LEGEND = "   ".join(f"{sign.value} {sign.words}" for sign in Met if sign.words)


class AtlasScreen(FramedScreen):
    """Shows all placements. `spot` is the one that is chosen."""

    COMMAND_SCREEN = "atlas"
    BINDINGS = commands.bindings("atlas")
    AUTO_FOCUS = "AtlasGrid"
    HORIZONTAL_BREAKPOINTS = [  # noqa: RUF012
        *FramedScreen.HORIZONTAL_BREAKPOINTS,
        (60, "-tight"),
        (78, "-wide"),
        (110, "-large"),
    ]
    VERTICAL_BREAKPOINTS = [*FramedScreen.VERTICAL_BREAKPOINTS, (34, "-airy")]  # noqa: RUF012

    def __init__(self) -> None:
        super().__init__()
        self.survey = Survey(Terms(), Pars(), {})
        self.spot = self.survey.at("a0")
        self._asked: dict[Question, Spot] = {}
        self._wish: tuple[str, Question] | None = None  # what is to be done once that is answered
        self._due: Timer | None = None
        self._is_sure = False  # `w` was pressed once
        self._said = ("", "")  # until something else is done, and its tone

    def body(self) -> Iterable[Widget]:
        """The grid over the facts; the terms over the picture."""
        yield Horizontal(
            Vertical(AtlasGrid(id="grid"), Static(id="facts"), Static(id="atlas-word"), id="chart"),
            Vertical(
                ChoiceList(eager=True, id="terms"), Preview(words=False, id="pair"), id="atlas-side"
            ),
            id="atlas",
        )

    # -- filling ---------------------------------------------------------------------------------

    def on_mount(self) -> None:
        """Begin to search."""
        self._look_up(self.survey.terms)

    def on_resize(self) -> None:
        """The picture is as large as its room."""
        self.call_after_refresh(self._show)

    def on_screen_resume(self) -> None:
        """What was played meanwhile shows."""
        self._look_up(self.survey.terms)
        self.call_after_refresh(self._show)

    def on_unmount(self) -> None:
        """Nothing more needs to be searched."""
        self.app.engine.forget(self)

    def _look_up(self, terms: Terms) -> None:
        """Take up terms and records, and have searched what is not known."""
        bests = self.app.record(lambda records: records.bests(), {})
        self.survey = Survey(terms, self.app.pars, bests, hides_par=self.app.settings.call)
        self._wish = None
        self.app.engine.forget(self)
        self._search_on()

    def _search_on(self) -> None:
        """Have searched what is not known of this sheet, and after that of the others."""
        missing = self.survey.missing(self.spot.entry)
        self._asked = {whole_question(model.position): model for model in missing}
        for question in self._asked:
            self.app.engine.ask(question, self, patient=True)

    def _choose(self, spot: Spot) -> None:
        """Go to a spot; its slot and open slots become the terms'."""
        self.spot = spot
        self._wish, self._is_sure, self._said = None, False, ("", "")
        terms = self.survey.terms.follow(spot)
        if terms != self.survey.terms:
            self._look_up(terms)
        self._show()

    def _say(self, said: str, tone: str = "$warning") -> None:
        self._said = (said, tone)
        self._show_word()

    # -- showing ---------------------------------------------------------------------------------

    def _show(self) -> None:
        """Show everything as it is now."""
        settings, spot = self.app.settings, self.spot
        self._show_found()
        listing = self.query_one("#terms", ChoiceList)
        marked = listing.highlighted or 0
        listing.set_options(_term(words) for words in self.survey.terms.rows())
        listing.highlighted = marked
        look = look_of(settings, self.app.depth, spot.position)
        focus = focuses(settings, spot.position)
        self.query_one(Preview).show(spot.position, None, look, focus=focus)
        self._show_word()
        self.query_one(KeyBar).refresh()

    def _show_soon(self) -> None:
        """Show what was found, but not for every answer: they come by the hundred."""
        if self._due is None:
            self._due = self.set_timer(FILL_SECONDS, self._show_found)

    def _show_found(self) -> None:
        """Show what the search and the records say."""
        self._due = None
        survey, spot = self.survey, self.spot
        settings, sheet = self.app.settings, self.spot.entry.sheet
        colours = look_of(settings, self.app.depth, spot.position).scheme
        cells = {entry: self._cell(entry) for entry in sheet.entries}
        self.query_one(AtlasGrid).show(
            Chart(sheet, spot.slot, colours, cells, spot.entry, spot.name[1])
        )
        pars, bests = survey.facts(spot.entry).pars, survey.bests_of(spot.entry)
        hidden = HIDDEN if survey.hides_par else ""
        told = atlas_words.facts(spot, pars, bests, colours, hidden)
        self.query_one("#facts", Static).update(told)
        picked, solved, at_par = survey.tally
        aside = f"{solved} solved, {at_par} at par"
        if picked < len(ENTRIES):
            aside = f"{picked} picked"
        if self._asked:
            aside = f"{len(self._asked)} to search"
        self.entitle(_tabs(sheet), aside)
        self.set_class(len(sheet.rows) > MANY_ROWS, "-long")

    def _cell(self, entry: Entry) -> Cell:
        survey = self.survey
        least = survey.facts(entry).least
        par = " " if least is None else str(least)
        par = par if survey.tells_par(entry) else HIDDEN
        return Cell(par, survey.met(entry), survey.picks(entry))

    def _show_word(self) -> None:
        said, tone = self._said
        if not said:
            said, tone = atlas_words.open_words(self.spot), "$accent"
        if not said:
            said, tone = LEGEND, "$muted"
        self.query_one("#atlas-word", Static).update(Content.styled(said, tone))

    # -- what the search finds -------------------------------------------------------------------

    def on_answered(self, message: Answered) -> None:
        """Fill in a par; go on with what waited for it."""
        message.stop()
        model = self._asked.pop(message.question, None)
        if model is not None:
            self.app.pars.learn(model, message.outcome)
            if not self._asked:
                self._search_on()
            self._show_soon()
        if self._wish is not None and self._wish[1] == message.question:
            wish, self._wish = self._wish[0], None
            self.app.pars.learn(self.spot, message.outcome)
            self._grant(wish)

    def on_failed(self, message: Failed) -> None:
        """The pars stay unknown."""
        message.stop()
        self._asked.clear()
        self._say(message.problem)

    # -- playing and watching --------------------------------------------------------------------

    def action_play(self) -> None:
        """Play the entry chosen."""
        par = self.app.pars.of(self.spot)
        if self.spot.entry.is_solved:
            self._say("This one is solved: nothing is to be done.")
        elif par is None:
            self._wait("play")
        else:
            self.app.play(AtlasPuzzle(self.spot, par.turns), self.played, self._beside)

    def action_watch(self) -> None:
        """Watch the solutions of the entry chosen; asked twice, since it is marked."""
        text = self.spot.position.text
        if self.spot.entry.is_solved:
            self._say("This one is solved: nothing is to be seen.")
        elif self._is_sure or self.app.record(lambda records: records.was_shown(text), False):
            self._watch()
        else:
            self._is_sure = True
            self._say("w again shows the solutions; later tries are marked as shown.")

    def _watch(self) -> None:
        from game.screens.watch import WatchScreen  # noqa: PLC0415 - imported where it is pushed

        position = self.spot.position
        outcome = self.app.engine.known(whole_question(position))
        if isinstance(outcome, Solved):
            self.app.record(lambda records: records.mark_shown(position.text), None)
            self.app.push_screen(WatchScreen(position, outcome.solutions))
        else:
            self._wait("watch")

    def _wait(self, wish: str) -> None:
        """Have the entry searched, before all others, and go on then."""
        question = whole_question(self.spot.position)
        self._wish = (wish, question)
        self.app.engine.ask(question, self)
        self._say("Looking for every shortest way ...", "$muted")

    def _grant(self, wish: str) -> None:
        """What was waited for is there."""
        self._show_word()
        if wish == "play":
            self.action_play()
        else:
            self._watch()

    def _beside(self, puzzle: Playable, step: int) -> AtlasPuzzle | None:
        """The next of the entries picked, as far as pars are known."""
        if not isinstance(puzzle, AtlasPuzzle):
            return None
        entry = self.survey.beside(puzzle.spot.entry, step)
        if entry is None:
            return None
        spot = self.survey.spots(entry)[0]
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
        last = len(self.spot.entry.sheet.edges) - 1
        if int(digit) > last:
            self._say(f"The columns here go from 0 to {last}.")
        else:
            self._choose(self.survey.at(self.spot.entry.row.letter + digit))

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
        at = SHEETS.index(self.spot.entry.sheet) + (1 if key == "pagedown" else -1)
        self.action_to_sheet(at % len(SHEETS))

    def action_to_sheet(self, number: int) -> None:
        """To the first entry of a sheet."""
        self._to_grid()
        entries = SHEETS[number].entries
        self._choose(self.survey.first(entries) or self.survey.spots(entries[0])[0])

    def action_top(self) -> None:
        """Turn the top on."""
        if len(self.spot.entry.turns) == 1:
            self._say("Nothing lies in the top layer: turning it changes nothing.")
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
        """A cell was clicked."""
        self._to_grid()
        self._choose(self.survey.at(message.cell))

    def on_atlas_grid_taken(self) -> None:
        """The chosen cell was clicked."""
        self.action_play()

    # -- the terms -------------------------------------------------------------------------------

    @property
    def _is_choosing(self) -> bool:
        return self.query_one("#terms").has_focus

    def action_terms(self) -> None:
        """To the terms, and back."""
        if self._is_choosing:
            self._to_grid()
        else:
            self.add_class("-choosing")
            self.set_focus(self.query_one("#terms"))

    def _to_grid(self) -> None:
        self.remove_class("-choosing")
        self.set_focus(self.query_one(AtlasGrid))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter or a click on a term: its next value."""
        event.stop()
        self._step_term(1)

    def _step_term(self, step: int) -> None:
        row = self.query_one("#terms", ChoiceList).highlighted or 0
        terms = self.survey.terms.stepped(row, step, self.survey.pars_found)
        self._look_up(terms)
        spot = terms.spot(self.spot.entry, self.spot.turn)
        if not self.survey.picks(spot.entry):
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


def _term(words: str) -> Content:
    return Content.assemble(("‹ ", "$muted"), (words, "bold"), (" ›", "$muted"))


def _tabs(chosen: Sheet) -> Content:
    """The sheets by their rows, the one that is shown marked; a click goes there."""
    parts = [("Atlas", ""), ("   astray:", "not bold $muted")]
    for number, sheet in enumerate(SHEETS):
        name = f"{sheet.rows[0].letter}-{sheet.rows[-1].letter} {sheet.astray}"
        style = "$accent" if sheet is chosen else "not bold $foreground"
        parts += [("  ", ""), (name, f"{style} @click=screen.to_sheet({number})")]
    return Content.assemble(*parts)
