"""The map: every pack and its levels, with the player's best."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from game.packs import Pack, Puzzle, puzzles
from game.packs.opening import go_on
from game.play.playable import Playable
from game.records.record import Best
from game.screens.home.map_rows import level_head, level_row, pack_row
from game.screens.shared import keys
from game.screens.shared.frame import FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.lists import ChoiceList
from game.screens.shared.looks import focuses, look_of
from game.screens.shared.preview import Preview
from game.screens.statistics.tally import solved_texts, tally


class MapScreen(FramedScreen):
    """Packs at the left, the levels of the marked pack beside them, a picture where there is room.

    at: the puzzle to mark first.
    """

    COMMAND_SCREEN = "map"
    BINDINGS = keys.bindings("map")
    CSS_PATH = "map.tcss"
    AUTO_FOCUS = "#levels"
    HORIZONTAL_BREAKPOINTS = [  # noqa: RUF012
        *FramedScreen.HORIZONTAL_BREAKPOINTS,
        (100, "-with-preview"),
        (120, "-with-large-preview"),
    ]

    def __init__(self, at: Puzzle | None = None) -> None:
        super().__init__()
        self._at = at
        self._bests: Mapping[str, Best] = {}
        self._shown: frozenset[str] = frozenset()
        self._opened: set[str] = set()
        self._listed: tuple[Puzzle, ...] = ()
        self._width = 0

    def body(self) -> Iterable[Widget]:
        """Packs, levels, and the picture of the marked level."""
        yield Horizontal(
            ChoiceList(eager=True, id="packs"),
            Vertical(
                Static(id="about"), Static(id="level-head"), ChoiceList(id="levels"), id="shelf"
            ),
            Preview(id="preview"),
            id="map",
        )

    @property
    def packs_list(self) -> ChoiceList:
        """The list of packs."""
        return self.query_one("#packs", ChoiceList)

    @property
    def levels_list(self) -> ChoiceList:
        """The list of levels of the marked pack."""
        return self.query_one("#levels", ChoiceList)

    @property
    def pack(self) -> Pack | None:
        """The marked pack."""
        at, packs = self.packs_list.highlighted, self.app.packs
        return packs[at] if at is not None and at < len(packs) else None

    @property
    def puzzle(self) -> Puzzle | None:
        """The marked level or twin."""
        at = self.levels_list.highlighted
        return self._listed[at] if at is not None and at < len(self._listed) else None

    # -- filling ---------------------------------------------------------------------------------

    def on_resize(self) -> None:
        """Rows are as wide as their lists."""
        self.call_after_refresh(self._fill)

    def on_screen_resume(self) -> None:
        """What was played meanwhile shows."""
        self._bests = self.app.keeper.record(lambda records: records.bests(), {})
        self._shown = self.app.keeper.record(lambda records: records.all_shown(), frozenset())
        if self.is_mounted:
            self.call_after_refresh(self._fill)

    def played(self, last: Playable, to_map: bool) -> None:
        """Mark what was played, or where to go on from here."""
        if to_map:
            self._at = go_on(self.app.packs, solved_texts(self._bests))
        elif isinstance(last, Puzzle):
            self._at = last
        if self._at is not None and self._at.twin:
            self._opened.add(self._at.level.id)

    def _fill(self) -> None:
        packs = self.app.packs
        whole = tally(packs, self._bests)
        self.entitle(
            "Map of packs", f"{whole.solved} of {whole.levels} solved, {whole.at_par} at par"
        )
        at = self._at or self.puzzle or go_on(packs, solved_texts(self._bests))
        self._at = None
        listing = self.packs_list
        width = listing.row_width
        marked = packs.index(at.pack) if at is not None and at.pack in packs else 0
        listing.set_options(pack_row(pack, tally((pack,), self._bests), width) for pack in packs)
        listing.highlighted = marked if packs else None
        self._fill_levels(at)
        self.call_after_refresh(self._refit)

    def _refit(self) -> None:
        """Rows anew when a scrollbar has come or gone."""
        if self._width != self.levels_list.row_width:
            self._fill_levels(self.puzzle)

    def _fill_levels(self, at: Puzzle | None) -> None:
        """List the marked pack's levels, with the twins of those opened, and mark one."""
        pack = self.pack
        if pack is None:
            self.query_one("#about", Static).update("No pack can be played. Home tells why.")
            return
        opened = self._opened
        self._listed = tuple(p for p in puzzles(pack) if not p.twin or p.level.id in opened)
        self.query_one("#about", Static).update(Content(pack.about))
        listing = self.levels_list
        width = self._width = listing.row_width
        self.query_one("#level-head", Static).update(level_head(width))
        listing.set_options(Option(self._row(p, width)) for p in self._listed)
        keys = [p.key for p in self._listed]
        unsolved = next((p.key for p in self._listed if not self._is_solved(p)), keys[0])
        listing.highlighted = keys.index(at.key if at is not None and at.key in keys else unsolved)
        self._show_puzzle()

    def _row(self, puzzle: Puzzle, width: int) -> Content:
        hides_par, shown = self.app.settings.call, puzzle.text in self._shown
        return level_row(puzzle, self._best(puzzle), width, hides_par=hides_par, shown=shown)

    def _best(self, puzzle: Puzzle) -> Best | None:
        return self._bests.get(puzzle.text)

    def _is_solved(self, puzzle: Puzzle) -> bool:
        best = self._best(puzzle)
        return best is not None and best.solved

    def _show_puzzle(self) -> None:
        self.query_one(KeyBar).refresh()
        preview, puzzle = self.query_one(Preview), self.puzzle
        if preview.display and puzzle is not None:
            settings, position = self.app.settings, puzzle.position
            look = look_of(settings, self.app.depth, position)
            best = self._best(puzzle)
            preview.show(position, best, look, focus=focuses(settings, position))

    # -- what the player does --------------------------------------------------------------------

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Another pack: its levels; another level: its picture."""
        event.stop()
        if event.option_list is self.packs_list:
            if self._listed and self._listed[0].pack != self.pack:
                self._fill_levels(None)
        else:
            self._show_puzzle()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """A pack: on to its levels; a level: play it."""
        event.stop()
        if event.option_list is self.packs_list:
            self.levels_list.focus()
        else:
            self.action_play()

    def action_play(self) -> None:
        """Play the marked level."""
        if self.puzzle is not None:
            self.app.play(self.puzzle, self.played)

    def action_packs(self) -> None:
        """To the packs."""
        self.packs_list.focus()

    def action_levels(self) -> None:
        """To the levels."""
        self.levels_list.focus()

    def action_twins(self) -> None:
        """Show or hide the twins of the marked level."""
        puzzle = self.puzzle
        if puzzle is None or not puzzle.level.twins:
            return
        self._opened ^= {puzzle.level.id}
        self._fill_levels(Puzzle(puzzle.pack, puzzle.level, ""))
        self.call_after_refresh(self._refit)

    def allows(self, action: str) -> bool:
        """Twins only where there are some."""
        if action == "twins":
            return self.puzzle is not None and bool(self.puzzle.level.twins)
        return True
