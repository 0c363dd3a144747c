"""A screen that shows a `Survey`: a sheet of the atlas as a grid, the chosen cell beside it.

Pars are searched in the background, and the grid fills as they come.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import Static

from game.atlas import CELLS, SHEETS, Cell, Pars, Sheet, Spot
from game.engine.engine import Answered, Question, whole_question
from game.screens.atlas import words as atlas_words
from game.screens.atlas.grid import AtlasGrid, Chart, Square
from game.screens.atlas.survey import Survey
from game.screens.atlas.terms import SurveyTerms
from game.screens.atlas.words import Met
from game.screens.shared.frame import MUTED, WARN, FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.lists import ChoiceList
from game.screens.shared.looks import focuses, look_of
from game.screens.shared.preview import Preview

BESIDE_COLUMNS = 78
"""Windows this wide show the terms beside the chart."""
FILL_SECONDS = 0.1
"""Between two times that what was found is shown."""
HIDDEN = "?"
"""In place of a par that is not to be told."""
MANY_ROWS = 6
"""More rows of a sheet than this leave no empty line in a low window."""
LEGEND = "   ".join(f"{sign.value} {sign.words}" for sign in Met if sign.words)


class SurveyScreen(FramedScreen):
    """Shows all placements. `spot` is the one that is chosen."""

    COMMAND_SCREEN = "atlas"
    CSS_PATH = "atlas.tcss"
    AUTO_FOCUS = "AtlasGrid"
    HORIZONTAL_BREAKPOINTS = [  # noqa: RUF012
        *FramedScreen.HORIZONTAL_BREAKPOINTS,
        (110, "-large"),
    ]
    VERTICAL_BREAKPOINTS = [*FramedScreen.VERTICAL_BREAKPOINTS, (34, "-airy")]  # noqa: RUF012

    def __init__(self) -> None:
        super().__init__()
        self.survey = Survey(SurveyTerms(), Pars(), {})
        self.spot = self.survey.at("a0")
        self._asked: dict[Question, Spot] = {}
        self._wish: tuple[Question, Callable[[], None]] | None = None
        self._due: Timer | None = None

    def body(self) -> Iterable[Widget]:
        """The grid over the facts; the terms over the picture."""
        yield Horizontal(
            Vertical(AtlasGrid(id="grid"), Static(id="facts"), Static(id="atlas-word"), id="chart"),
            Vertical(
                ChoiceList(eager=True, id="terms"), Preview(words=False, id="pair"), id="atlas-side"
            ),
            id="atlas",
        )

    @property
    def _is_choosing(self) -> bool:
        """Whether the keys go to the terms."""
        return self.query_one("#terms").has_focus

    def _arrange(self, *, terms: bool) -> None:
        """Terms beside the chart; in a narrow window in its place, while the player is at them."""
        beside = self.app.size.width >= BESIDE_COLUMNS
        self.query_one("#atlas-side").display = beside or terms
        self.query_one("#chart").display = beside or not terms

    # -- filling ---------------------------------------------------------------------------------

    def on_resize(self) -> None:
        """The picture is as large as its room."""
        self._arrange(terms=self._is_choosing)
        self.call_after_refresh(self._show)

    def on_screen_resume(self) -> None:
        """Take up the records, and go on searching: at first, and when the player is back."""
        bests = self.app.keeper.record(lambda records: records.bests(), {})
        self.survey = replace(self.survey, bests=bests, hides_par=self.app.settings.call)
        self._look_into(self.survey.terms)
        self.call_after_refresh(self._show)

    def on_unmount(self) -> None:
        """Nothing more needs to be searched."""
        self.app.engine.forget(self)

    def _look_into(self, terms: SurveyTerms) -> None:
        """From now on by these terms; have searched what is not known."""
        self.survey = replace(self.survey, terms=terms, pars=self.app.pars)
        self._wish = None
        self.app.engine.forget(self)
        self._search_on()

    def _search_on(self) -> None:
        """Have searched what is not known of this sheet, and after that of the others."""
        missing = self.survey.missing(self.spot.cell)
        self._asked = {whole_question(model.position): model for model in missing}
        for question in self._asked:
            self.app.engine.ask(question, self, patient=True)

    def _choose(self, spot: Spot) -> None:
        """Go to a spot; its slot and open slots become the terms'."""
        self.spot = spot
        self._wish, self.said = None, ("", MUTED)
        terms = self.survey.terms.follow(spot)
        if terms != self.survey.terms:
            self._look_into(terms)
        self._show()

    def show_said(self) -> None:
        """The message, or else what is to be seen."""
        self._show_word()

    def _asks(self, question: str) -> bool:
        """Whether this is what was said last."""
        return self.said[0] == question

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
        settings, sheet = self.app.settings, self.spot.cell.sheet
        colours = look_of(settings, self.app.depth, spot.position).scheme
        squares = {cell: self._square(cell) for cell in sheet.cells}
        self.query_one(AtlasGrid).show(
            Chart(sheet, spot.slot, colours, squares, spot.cell, spot.name[1])
        )
        pars, bests = survey.facts(spot.cell).pars, survey.bests_of(spot.cell)
        hidden = HIDDEN if survey.hides_par else ""
        told = atlas_words.facts(spot, pars, bests, colours, hidden)
        self.query_one("#facts", Static).update(told)
        picked, solved, at_par = survey.tally
        aside = f"{solved} solved, {at_par} at par"
        if picked < len(CELLS):
            aside = f"{picked} picked"
        if self._asked:
            aside = f"{len(self._asked)} to search"
        self.entitle(_tabs(sheet), aside)
        self.set_class(len(sheet.rows) > MANY_ROWS, "-long")

    def _square(self, cell: Cell) -> Square:
        survey = self.survey
        least = survey.facts(cell).least
        par = " " if least is None else str(least)
        par = par if survey.tells_par(cell) else HIDDEN
        return Square(par, survey.met(cell), survey.picks(cell))

    def _show_word(self) -> None:
        said, tone = self.said
        if not said:
            said, tone = atlas_words.open_words(self.spot), "$accent"
        if not said:
            said, tone = LEGEND, "$muted"
        self.query_one("#atlas-word", Static).update(Content.styled(said, tone))

    # -- what the search finds -------------------------------------------------------------------

    def answered(self, answer: Answered) -> None:
        """Fill in a par; go on with what waited for it."""
        model = self._asked.pop(answer.question, None)
        if model is not None:
            self.app.pars.learn(model, answer.outcome)
            if not self._asked:
                self._search_on()
            self._show_soon()
        if self._wish is not None and self._wish[0] == answer.question:
            (_, grant), self._wish = self._wish, None
            self.app.pars.learn(self.spot, answer.outcome)
            self.say("")
            grant()

    def _wait(self, grant: Callable[[], None]) -> None:
        """Have the cell searched before all others; what to do then."""
        question = whole_question(self.spot.position)
        self._wish = (question, grant)
        self.app.engine.ask(question, self)
        self.say("Looking for every shortest way ...")

    def failed(self, problem: str) -> None:
        """The pars stay unknown."""
        self._asked.clear()
        self.say(problem, WARN)


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
