"""Home: go on, or choose something else; what was done today; what the player should know."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from datetime import date, datetime

from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from game.packs import Puzzle
from game.packs.opening import go_on
from game.play.playable import Playable
from game.prose import tallied
from game.records.record import Best
from game.screens.shared import keys
from game.screens.shared.frame import FramedScreen
from game.screens.shared.lists import ChoiceList
from game.screens.shared.looks import focuses, look_of
from game.screens.shared.preview import Preview
from game.screens.statistics.tally import Tally, solved_texts, tally

CHOICES = (
    "go", "map", "atlas", "drill", "runs", "day", "contests", "match", "statistics", "settings",
    "help", "quit",
)  # fmt: skip
"""The commands that stand in the list."""
LEFT = {
    "dash": ("runs", "a dash is not over"),
    "hourglass": ("runs", "an hourglass is not over"),
    "match": ("match", "a match is not over"),
}
"""Mode -> the choice that leads to what was left of it, and what is told there."""
KEY_WIDTH = 7


class HomeScreen(FramedScreen):
    """The first screen, save at the very first start, which opens in the first level."""

    COMMAND_SCREEN = "home"
    BINDINGS = keys.bindings("home")
    CSS_PATH = "home.tcss"
    HAS_TITLE = False
    HORIZONTAL_BREAKPOINTS = [  # noqa: RUF012
        *FramedScreen.HORIZONTAL_BREAKPOINTS,
        (76, "-with-picture"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._bests: Mapping[str, Best] = {}
        self._next: Puzzle | None = None

    def body(self) -> Iterable[Widget]:
        """The name, the choices, today; the picture of what comes next."""
        yield Horizontal(
            Vertical(
                Static(id="wordmark"),
                Static("Bring each corner to its edge, and both home.", id="aim"),
                ChoiceList(eager=True, id="choices"),
                Static(id="today"),
                Static(id="notices"),
                id="welcome",
            ),
            Preview(words=False, id="next"),
            id="home",
        )

    def on_mount(self) -> None:
        """The name."""
        self.query_one("#wordmark", Static).update(wordmark())

    def on_screen_resume(self) -> None:
        """What was played meanwhile shows."""
        self._look_up()
        self._fill()
        self.call_after_refresh(self._draw)

    def on_resize(self) -> None:
        """The picture is as large as its room."""
        self.call_after_refresh(self._draw)

    def _look_up(self) -> None:
        self._bests = self.app.keeper.record(lambda records: records.bests(), {})
        in_hand = self.app.keeper.record(lambda records: records.positions_in_hand(), ())
        self._next = go_on(self.app.packs, solved_texts(self._bests), in_hand)

    def _fill(self) -> None:
        """Words need no room to be known: they stand from the first picture on."""
        choices = self.query_one(ChoiceList)
        marked = choices.highlighted or 0
        whole = tally(self.app.packs, self._bests)
        left = self.app.keeper.record(
            lambda records: {run.mode for run in records.open_runs()}, set()
        )
        choices.set_options(Option(row, id=id_) for id_, row in rows(self._next, whole, left))
        choices.highlighted = marked
        choices.focus()
        midnight = datetime.now().astimezone().replace(hour=0, minute=0, second=0, microsecond=0)
        today = self.app.keeper.record(lambda records: records.solved_since(midnight), (0, 0))
        self.query_one("#today", Static).update(Content.styled(today_words(*today), "$muted"))
        self.query_one("#notices", Static).update(Content("\n".join(self.app.notices)))

    def _draw(self) -> None:
        if self._next is not None:
            settings, position = self.app.settings, self._next.position
            look = look_of(settings, self.app.depth, position)
            focus = focuses(settings, position)
            self.query_one(Preview).show(position, None, look, focus=focus)

    # -- what the player does --------------------------------------------------------------------

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Do what was chosen."""
        event.stop()
        self.call_later(self.run_action, event.option.id)

    def action_go(self) -> None:
        """Play on; to the map when everything is solved."""
        if self._next is not None:
            self.app.play(self._next, self.played)
        else:
            self.action_map()

    def played(self, last: Playable, to_map: bool) -> None:
        """On to the map after the opening and after a pack."""
        if to_map:
            self.action_map()

    def action_map(self) -> None:
        """To the map of packs."""
        from game.screens.home.map import MapScreen  # noqa: PLC0415 - imported where it is pushed

        self.app.push_screen(MapScreen(self._next))

    def action_atlas(self) -> None:
        """To the atlas."""
        from game.screens.atlas.screen import AtlasScreen  # noqa: PLC0415 - likewise

        self.app.push_screen(AtlasScreen())

    def action_drill(self) -> None:
        """To the drill."""
        from game.screens.drill.screen import DrillScreen  # noqa: PLC0415 - likewise

        self.app.push_screen(DrillScreen())

    def action_runs(self) -> None:
        """To the timed runs."""
        from game.screens.runs.form import RunsScreen  # noqa: PLC0415 - likewise

        self.app.push_screen(RunsScreen())

    def action_day(self) -> None:
        """To the day's five."""
        from game.screens.contests.screen import ContestScreen  # noqa: PLC0415 - likewise

        self.app.push_screen(ContestScreen(date_=date.today()))

    def action_contests(self) -> None:
        """To the contests."""
        from game.screens.contests.list import ContestsScreen  # noqa: PLC0415 - likewise

        self.app.push_screen(ContestsScreen())

    def action_match(self) -> None:
        """To a table match."""
        from game.screens.match.form import MatchFormScreen  # noqa: PLC0415 - likewise

        self.app.push_screen(MatchFormScreen())

    def action_statistics(self) -> None:
        """To the statistics."""
        from game.screens.statistics.screen import StatisticsScreen  # noqa: PLC0415 - likewise

        self.app.push_screen(StatisticsScreen())

    def action_settings(self) -> None:
        """To the settings."""
        from game.screens.home.settings import SettingsScreen  # noqa: PLC0415 - likewise

        self.app.push_screen(SettingsScreen())

    def action_faults(self) -> None:
        """Read what is wrong with packs."""
        from game.screens.shared.text_page import FaultsScreen  # noqa: PLC0415 - likewise

        self.app.push_screen(FaultsScreen("Packs with faults"))

    def action_quit(self) -> None:
        """Leave the game."""
        self.app.exit()

    def allows(self, action: str) -> bool:
        """Faults are read only where there are some."""
        return bool(self.app.pack_faults) if action == "faults" else True


def wordmark() -> Content:
    """The game's name, its first word marked as joined."""
    return Content.assemble(("p a i r", "bold $accent"), ("  w r i g h t", "bold"))


def rows(
    following: Puzzle | None, whole: Tally, left: Collection[str] = ()
) -> Iterable[tuple[str, Content]]:
    """The choices: action and row; what there is to tell of one stands below it.

    left: modes of which a run or a match was left before its end.
    """
    if following is not None:
        twin = f", {following.aside}" if following.twin else ""
        going = f"{following.level.name}{twin} ({following.pack.title})"
    elif whole.levels:
        going = "every level is solved"
    else:
        going = "there is no pack to play"
    asides = {
        "go": going,
        "map": f"{whole.solved} of {whole.levels} levels solved, {whole.at_par} at par",
    }
    for mode, (action, words) in LEFT.items():
        if mode in left:
            asides[action] = words
    for command in keys.of_screen("home"):
        if command.action in CHOICES:
            key, label = command.shown.split()[0], command.label.capitalize()
            row = Content.assemble((f"{key:<{KEY_WIDTH}}", "bold $accent"), label)
            if command.action in asides:
                aside = " " * KEY_WIDTH + asides[command.action]
                row = Content.assemble(row, "\n", (aside, "$muted"))
            yield command.action, row


def today_words(solved: int, at_par: int) -> str:
    """What was done today: "Today 3 positions solved, 2 at par"."""
    if not solved:
        return "Nothing solved today yet"
    positions = tallied(solved, "position")
    return f"Today {positions} solved, {at_par} at par"
