"""What the player can do, as one table: it feeds the bindings, the key bar, the help, the palette.

A command belongs to one screen by name and calls that screen's action of the same name, so
`Command("play", "undo", ...)` calls `action_undo`. A command with `each` stands for several keys
of one kind (the turns): its action is called with the key that was pressed.
"""

from __future__ import annotations

from textual.binding import Binding, BindingType

from game.screens.shared.command import Command
from game.screens.shared.keys_friends import AMONG_FRIENDS
from game.screens.shared.keys_timed import AGAINST_THE_CLOCK

_TABLE: tuple[Command, ...] = (
    # -- the playing screen ------------------------------------------------------------------
    Command(
        "play", "turn", tuple("fbrlud"), "f b r l u d", "turn a face",
        "Turn that face clockwise; with Shift the other way; twice for a half turn.",
        "Turning", each=True,
    ),
    Command(
        "play", "turn", tuple("xyz"), "x y z", "rotate the cube",
        "Turn the whole cube round, to look or to hold it otherwise: it counts nothing.",
        "Turning", each=True,
    ),
    Command(
        "play", "turn", tuple("mes"), "m e s", "turn a slice",
        "Turn the layer between two faces: m as l turns, e as d, s as f. It counts two.",
        "Turning", each=True,
    ),
    Command(
        "play", "wide", ("w",), "w", "wide",
        "Make the next face turn a wide one, two layers together.",
        "Turning",
    ),
    Command("play", "undo", ("left", "backspace"), "← Backspace", "undo",
            "Take the last turn back; free.", "The line", bar=2),
    Command("play", "redo", ("right",), "→", "redo",
            "Make the turn again that was taken back.", "The line"),
    Command("play", "restart", ("0", "home"), "0 Home", "restart",
            "Back to the start of the position.", "The line", bar=4),
    Command(
        "play", "type", ("t",), "t", "type",
        "Open a line to type or paste turns in notation, which are made at one moment.",
        "Turning", bar=6,
    ),
    Command(
        "play", "pad", ("j",), "j", "pad",
        "Show every turn as a button for the mouse. Clicking a face turns it too.",
        "Turning", bar=7,
    ),
    Command(
        "play", "capitals", ("k",), "k", "flip capitals",
        "Read capitals as plain turns and plain letters as the other way, for Caps Lock.",
        "Turning",
    ),
    Command("play", "go", ("enter",), "Enter", "go on",
            "Once solved: again when over par, otherwise the next level.", "The level", bar=1),
    Command("play", "again", ("a",), "a", "again",
            "Begin anew with a new clock; an attempt not over is left for good.",
            "The level", bar=1),
    Command("play", "call", ("c",), "c", "call it",
            "Declare that no shorter way exists, when par is hidden.", "The level", bar=1),
    Command("play", "hint", ("h",), "h", "hint",
            "A hint from where you stand: where to look, what to aim for, the next turn, the whole"
            " line. It is marked. Once over: is there a shorter way?",
            "The level", bar=5),
    Command("play", "show", ("g",), "g", "give up",
            "See every shortest solution, and watch one. Later tries are marked as shown.",
            "The level", bar=5),
    Command("play", "read_on", ("down",), "↓", "read on",
            "Once over: see the rest of what is told, where it is longer than its room.",
            "The level"),
    Command("play", "read_back", ("up",), "↑", "read back",
            "See what came before.", "The level"),
    Command("play", "next", ("n", "pagedown"), "n PageDown", "next",
            "Go to the next level.", "The level", bar=3),
    Command("play", "previous", ("p", "pageup"), "p PageUp", "previous",
            "Go to the level before.", "The level"),
    Command("play", "why", ("space",), "Space", "why this one?",
            "In the drill: tell why this position was chosen for you.", "The level", bar=2),
    Command("play", "view", ("v",), "v", "colouring",
            "Grey out what does not matter, or show every sticker.", "Looking"),
    Command("play", "letters", ("i",), "i", "letters",
            "Write each sticker's colour on it as a letter.", "Looking"),
    Command("play", "far", ("o",), "o", "far side",
            "Show or hide the far side.", "Looking", bar=8),
    Command("play", "help", ("question_mark", "f1"), "? F1", "help",
            "Every key, and how turns are counted.", "The game", bar=1),
    Command("play", "back", ("q", "escape"), "q Escape", "back",
            "Close what is open: pad, solutions, questions. Then leave; the attempt is kept.",
            "The game", bar=1),
    *AGAINST_THE_CLOCK,
    # -- home --------------------------------------------------------------------------------
    Command("home", "go", ("enter",), "Enter", "go on",
            "Take up the attempt in hand, or the next level that is not solved.", "Home", bar=1),
    Command("home", "map", ("m",), "m", "map of packs",
            "Choose any pack and level, and see your best.", "Home", bar=2),
    Command("home", "atlas", ("a",), "a", "atlas",
            "See every placement of a pair, with its par and your marks; play or watch any.",
            "Home", bar=3),
    Command("home", "drill", ("d",), "d", "drill",
            "Endless positions, chosen for you: what you lose comes more often.",
            "Home", bar=3),
    Command("home", "runs", ("r",), "r", "timed runs",
            "A dash, a number of positions in the least time; or an hourglass, as many as can be.",
            "Home", bar=3),
    Command("home", "day", ("k",), "k", "the day's five",
            "Five positions that everybody gets on that date, from three turns to two pairs.",
            "Home", bar=3),
    Command("home", "contests", ("c",), "c", "contests",
            "Competitions over any chat: make an invite, paste one, rank the cards.",
            "Home", bar=3),
    Command("home", "match", ("g",), "g", "table match",
            "Two to eight players in turn at this keyboard, all at the same positions.",
            "Home", bar=4),
    Command("home", "statistics", ("t",), "t", "statistics",
            "What all your attempts come to: strength, times, strong and weak placements.",
            "Home", bar=3),
    Command("home", "settings", ("s",), "s", "settings",
            "Colours, drawing, what is shown.", "Home", bar=3),
    Command("home", "faults", ("p",), "p", "pack faults",
            "Read what is wrong with the packs that were left out.", "Home", bar=5),
    Command("home", "help", ("question_mark", "f1"), "? F1", "help",
            "Every key, and how turns are counted.", "Home", bar=4),
    Command("home", "quit", ("q",), "q", "quit",
            "Leave Pairwright.", "Home", bar=1),
    # -- the map of packs --------------------------------------------------------------------
    Command("map", "play", ("enter",), "Enter", "play",
            "Play the level that is marked.", "The map", bar=1),
    Command("map", "packs", ("left",), "←", "packs",
            "Go to the list of packs.", "The map", bar=3),
    Command("map", "levels", ("right",), "→", "levels",
            "Go to the levels of the pack that is marked.", "The map", bar=3),
    Command("map", "twins", ("t",), "t", "twins",
            "Show or hide the twins of the level that is marked: +2 behind its name counts them.",
            "The map", bar=2),
    Command("map", "help", ("question_mark", "f1"), "? F1", "help",
            "Every key, and how turns are counted.", "The map", bar=4),
    Command("map", "back", ("q", "escape"), "q Escape", "back",
            "Go home.", "The map", bar=1),
    # -- the atlas ---------------------------------------------------------------------------
    Command("atlas", "row", tuple("abcdefghijklnoprstvxz"), "a b c ...", "row",
            "Go to the row of that letter.", "The atlas", each=True),
    Command("atlas", "column", tuple("0123456789"), "0 1 2 ...", "column",
            "Go to the column of that digit.", "The atlas", each=True),
    Command("atlas", "move", ("left", "right", "up", "down"), "← → ↑ ↓", "move",
            "Go to the placement beside it.", "The atlas", each=True),
    Command("atlas", "sheet", ("pagedown", "pageup"), "PageDown Up", "sheet",
            "Go to the next sheet, or the one before.", "The atlas", each=True),
    Command("atlas", "play", ("enter",), "Enter", "play",
            "Play the placement that is marked.", "The atlas", bar=1),
    Command("atlas", "watch", ("w",), "w", "watch",
            "Watch its shortest solutions. Later tries are marked as shown.",
            "The atlas", bar=2),
    Command("atlas", "top", ("u",), "u", "turn the top",
            "Turn the top layer on: the placement stays, its par may be another.",
            "The atlas", bar=4),
    Command("atlas", "slot", ("y",), "y", "next slot",
            "See it at the next slot, as if the cube were turned round.", "The atlas", bar=5),
    Command("atlas", "mirror", ("m",), "m", "mirror",
            "Go to its left-right twin.", "The atlas", bar=6),
    Command("atlas", "terms", ("tab",), "Tab", "choose",
            "Choose the slot, slots to leave open, and which placements are shown.",
            "The atlas", bar=3),
    Command("atlas", "help", ("question_mark", "f1"), "? F1", "help",
            "Every key, and how turns are counted.", "The atlas", bar=7),
    Command("atlas", "back", ("q", "escape"), "q Escape", "back",
            "Go home.", "The atlas", bar=1),
    # -- the drill ---------------------------------------------------------------------------
    Command("drill", "play", ("enter",), "Enter", "go on",
            "Play the next position; n or Enter leads on from one to the next.",
            "The drill", bar=1),
    Command("drill", "help", ("question_mark", "f1"), "? F1", "help",
            "Every key, and how turns are counted.", "The drill", bar=2),
    Command("drill", "back", ("q", "escape"), "q Escape", "back",
            "Go home.", "The drill", bar=1),
    # -- statistics --------------------------------------------------------------------------
    Command("statistics", "measure", ("right", "space"), "→ Space", "measure",
            "Show the next measure by placement and side: turns over par, seeing, doing.",
            "Statistics", bar=1),
    Command("statistics", "measure_before", ("left",), "←", "measure before",
            "Show the measure before.", "Statistics"),
    Command("statistics", "help", ("question_mark", "f1"), "? F1", "help",
            "Every key, and how turns are counted.", "Statistics", bar=2),
    Command("statistics", "back", ("q", "escape"), "q Escape", "back",
            "Go home.", "Statistics", bar=1),
    # -- settings ----------------------------------------------------------------------------
    Command("settings", "change", ("right", "enter", "space"), "→ Enter", "change",
            "Take the next choice, or write your name.", "Settings", bar=1),
    Command("settings", "change_back", ("left",), "←", "back one",
            "Take the choice before.", "Settings", bar=2),
    Command("settings", "usual", ("u",), "u", "reset",
            "Put this setting back to what it is at first.", "Settings", bar=3),
    Command("settings", "help", ("question_mark", "f1"), "? F1", "help",
            "Every key, and how turns are counted.", "Settings", bar=4),
    Command("settings", "back", ("q", "escape"), "q Escape", "done",
            "Go back; everything is kept already.", "Settings", bar=1),
    # -- watching solutions ------------------------------------------------------------------
    Command("watch", "forward", ("right",), "→", "forward",
            "Make the next turn.", "Watching", bar=1),
    Command("watch", "backward", ("left", "backspace"), "← Backspace", "backward",
            "Take the last turn back.", "Watching", bar=1),
    Command("watch", "auto", ("space",), "Space", "run",
            "Let the turns run by themselves, or stop them.", "Watching", bar=2),
    Command("watch", "start", ("0", "home"), "0 Home", "start",
            "Back to the start of the line.", "Watching", bar=5),
    Command("watch", "end", ("end",), "End", "end",
            "To the end of the line.", "Watching"),
    Command("watch", "next", ("down", "n"), "↓ n", "next line",
            "Watch the next solution.", "Watching", bar=3),
    Command("watch", "previous", ("up", "p"), "↑ p", "line before",
            "Watch the solution before.", "Watching"),
    Command("watch", "grip", ("h",), "h", "grip",
            "Hold the cube otherwise, as is easiest for this line, or as it was given.",
            "Watching", bar=4),
    Command("watch", "help", ("question_mark", "f1"), "? F1", "help",
            "Every key, and how turns are counted.", "Watching", bar=6),
    Command("watch", "back", ("q", "escape"), "q Escape", "back",
            "Back to the level.", "Watching", bar=1),
    *AMONG_FRIENDS,
    # -- help --------------------------------------------------------------------------------
    Command("help", "back", ("q", "escape", "question_mark", "f1"), "q Escape", "close",
            "Back to where you were.", "The help", bar=1),
)  # fmt: skip


IN_ROUNDS = (
    "turn", "wide", "undo", "redo", "restart", "type", "pad", "capitals", "view", "letters", "far",
    "help",
)  # fmt: skip
"""What the playing screen and a round have in common."""

COMMANDS: tuple[Command, ...] = (
    *_TABLE,
    *(c._replace(screen="round") for c in _TABLE if c.screen == "play" and c.action in IN_ROUNDS),
)


def of_screen(screen: str) -> tuple[Command, ...]:
    """The commands of a screen, in the order of the table."""
    return tuple(command for command in COMMANDS if command.screen == screen)


def is_of(screen: str, action: str) -> bool:
    """Whether a screen has a command with this action."""
    return any(command.action == action for command in of_screen(screen))


def bindings(screen: str) -> list[BindingType]:
    """A screen's bindings.

    A letter is bound in both cases, so that Caps Lock breaks no command; where each key is a case
    of its own the action gets `r`, `R` (typed) or `shift+r` (a terminal that tells Shift apart).
    """
    found: list[BindingType] = []
    for command in of_screen(screen):
        for key in command.keys:
            cases = [key]
            if len(key) == 1 and key.isalpha():
                cases += [key.upper(), f"shift+{key}"]
            for case in cases:
                action = f"{command.action}('{case}')" if command.each else command.action
                found.append(Binding(case, action, command.label, show=False))
    return found


def groups(screen: str) -> dict[str, tuple[Command, ...]]:
    """A screen's commands under their headings, in the order of the table."""
    commands = of_screen(screen)
    headings = dict.fromkeys(command.group for command in commands)
    return {h: tuple(c for c in commands if c.group == h) for h in headings}
