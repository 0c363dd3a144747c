"""Pasting: everything that is found in the text, contest by contest, while it comes in.

Codes are taken only here, inside a field: a paste that the terminal does not mark as one arrives
as keys, which elsewhere would do things.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from textual import events
from textual.containers import Vertical
from textual.content import Content
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import OptionList, Static, TextArea
from textual.widgets.option_list import Option

from game.errors import CodeError
from game.friends.chat import Chat
from game.friends.codes import Findings, find
from game.keeping import contests
from game.prose import counted
from game.screens.shared import keys
from game.screens.shared.frame import FramedScreen
from game.screens.shared.key_bar import KeyBar
from game.screens.shared.lists import ChoiceList

MAX_PASTED = 2_000_000
"""Characters that are looked through at most."""
PAUSE_SECONDS = 0.15
"""From the last change of the text to looking through it: keys of a paste come one by one."""
SHOWN_FAULTS = 3


class PasteArea(TextArea):
    """The field; Escape leaves it for what was found.

    What could move the cursor or turn the direction of the text round becomes a blank.
    """

    def on_paste(self, event: events.Paste) -> None:
        """Make the text fit to be shown, before the field takes it."""
        text = event.text[:MAX_PASTED]
        event.text = "".join(c if c.isprintable() or c in "\r\n\t" else " " for c in text)

    def on_key(self, event: events.Key) -> None:
        """Leave with Escape, before the field thinks anything of it."""
        if event.key == "escape":
            event.stop()
            event.prevent_default()
            self.screen.query_one(ChoiceList).focus()


class PasteScreen(FramedScreen):
    """A field over the list of what was found in it.

    then: called with the key or date of the contest that is to be opened.
    """

    COMMAND_SCREEN = "paste"
    BINDINGS = keys.bindings("paste")
    CSS_PATH = "contests.tcss"

    def __init__(self, then: Callable[[str], None]) -> None:
        super().__init__()
        self._then = then
        self._pause: Timer | None = None

    def body(self) -> Iterable[Widget]:
        """Field, list, what is amiss."""
        yield Vertical(
            Static(
                "Paste an invite, cards, or a whole chat; other text does no harm.",
                id="paste-about",
            ),
            PasteArea(tab_behavior="indent", compact=True, id="paste-text"),
            Static(id="paste-found"),
            ChoiceList(eager=True, quiet=True, id="paste-list"),
            Static(id="paste-faults"),
            id="paste",
        )

    def on_mount(self) -> None:
        """The field waits."""
        self.entitle("Paste")
        self._tell(Findings((), (), (), 0))
        self.query_one(PasteArea).focus()

    # -- looking through the text ----------------------------------------------------------------

    def on_text_area_changed(self, event: TextArea.Changed) -> None:
        """Look through it once nothing more comes."""
        event.stop()
        if self._pause is not None:
            self._pause.stop()
        self._pause = self.set_timer(PAUSE_SECONDS, self._look)

    def _look(self) -> None:
        text = self.query_one(PasteArea).text
        self.run_worker(lambda: self._find(text), thread=True, exclusive=True)

    def _find(self, text: str) -> None:
        """Look through the text; in a thread, since a chat may be long."""
        try:
            found: Findings | CodeError = find([text[:MAX_PASTED]])
        except CodeError as fault:
            found = fault
        self.app.call_later(self._take, found)

    def _take(self, found: Findings | CodeError) -> None:
        """Keep what was found, and show it."""
        if not self.is_attached:
            return
        if isinstance(found, CodeError):
            self._tell(Findings((), (), (found,), 0))
        else:
            self.app.pasted = self.app.pasted.more(found)
            self._tell(found)

    def _tell(self, found: Findings) -> None:
        here = Chat().more(found)
        names = {
            kind: contests.name_of(self.app.keeper, self.app.pasted, kind) for kind in here.kinds
        }
        known = [kind for kind in here.kinds if names[kind]]
        lost = sum(len(here.cards_for(kind)) for kind in here.kinds if not names[kind])
        choices = self.query_one(ChoiceList)
        choices.set_options(Option(_row(names[kind], kind, here), id=kind) for kind in known)
        choices.highlighted = 0 if known else None
        self.query_one("#paste-found", Static).update(_found_words(found, len(known)))
        self.query_one("#paste-faults", Static).update(_fault_words(found, lost))
        self.query_one(KeyBar).refresh()

    # -- what the player does --------------------------------------------------------------------

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Open what was chosen."""
        event.stop()
        self.call_later(self.action_open)

    def action_open(self) -> None:
        """Open the contest that is marked."""
        chosen = self.query_one(ChoiceList)
        if chosen.highlighted is not None:
            kind = chosen.get_option_at_index(chosen.highlighted).id or ""
            self.leave()
            self._then(kind)

    def action_edit(self) -> None:
        """Back into the field."""
        self.query_one(PasteArea).focus()

    def key_label(self, action: str) -> str | None:
        """In the field only Escape does anything."""
        if not self.query_one(PasteArea).has_focus:
            return None
        return {"back": "to what was found"}.get(action, "")

    def key_sign(self, action: str) -> str | None:
        """The key that leaves the field."""
        return "Esc" if self.query_one(PasteArea).has_focus else None

    def on_descendant_focus(self) -> None:
        """The keys mean other things in the field."""
        self.query_one(KeyBar).refresh()


def _row(name: str, kind: str, here: Chat) -> Content:
    """What was found of a contest: "Friday five   invite, 3 cards"."""
    count = len(here.cards_for(kind))
    parts = ["invite"] if kind in here.contests else []
    parts += [counted(count, "card")] if count else []
    return Content.assemble(name, (f"   {', '.join(parts)}", "$muted"))


def _found_words(found: Findings, known: int) -> Content:
    """What the list below holds."""
    if not (found.invites or found.cards):
        return Content.styled("Nothing found yet.", "$muted")
    there = "it; Enter then opens it" if known == 1 else "them; Enter then opens the marked one"
    return Content(f"Found: {counted(known, 'contest')}. Escape leads to {there}.")


def _fault_words(found: Findings, lost: int) -> Content:
    """What is amiss: damaged codes, and cards whose contest is not known."""
    faults = [fault.placed for fault in found.faults[:SHOWN_FAULTS]]
    more = found.more + len(found.faults) - len(faults)
    if more:
        faults.append(f"and {counted(more, 'code')} more that cannot be read")
    if lost:
        faults.append(
            f"{counted(lost, 'card')} for a contest whose invite is not here: paste it too"
        )
    return Content.styled(
        "\n".join(f"{fault[0].upper()}{fault[1:]}." for fault in faults), "$warning"
    )
