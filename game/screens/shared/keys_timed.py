"""The part of the table of commands that is of positions against the clock, and of timed runs."""

from __future__ import annotations

from game.screens.shared.command import Command

AGAINST_THE_CLOCK: tuple[Command, ...] = (
    # -- one position of a run, a match or a contest; its turning keys are the playing screen's ----
    Command("round", "pause", ("space",), "Space", "pause",
            "Hide the cube; the clock stands until you go on. In contests, the day's five and"
            " matches it runs on.", "The position", bar=3),
    Command("round", "go", ("enter",), "Enter", "go on",
            "Once solved: go on without a call.", "The position", bar=1),
    Command("round", "call", ("c",), "c", "call it",
            "Declare that no shorter way exists, where it is asked.", "The position", bar=1),
    Command("round", "give_up", ("g",), "g", "give up",
            "Leave the position unsolved and go on; asked twice.", "The position", bar=3),
    Command("round", "back", ("q", "escape"), "q Escape", "leave",
            "Leave, asked twice: what is finished is kept, the position in hand is not. In"
            " contests, the day's five and matches you can come back to it, but its clock runs on.",
            "The position", bar=1),
    # -- what hides the cube -----------------------------------------------------------------
    Command("curtain", "go", ("space", "enter"), "Space Enter", "go on",
            "Show the cube again; a clock that stands goes on. Or begin without counting down.",
            "The curtain", bar=1),
    Command("curtain", "back", ("q", "escape"), "q Escape", "leave",
            "Leave from behind the curtain.", "The curtain", bar=2),
    # -- timed runs --------------------------------------------------------------------------
    Command("runs", "begin", ("enter",), "Enter", "begin",
            "Count down, and begin a run on these terms.", "Timed runs", bar=1),
    Command("runs", "go_on", ("u",), "u", "go on",
            "Take up the run that was left: it goes on with a position not seen before.",
            "Timed runs", bar=2),
    Command("runs", "close_run", ("x",), "x", "close",
            "Close the run that was left as it is, and see what it came to.",
            "Timed runs", bar=2),
    Command("runs", "change", ("right", "space"), "→ Space", "change",
            "Take the next choice; a click on the marked row does the same.",
            "Timed runs", bar=3),
    Command("runs", "change_back", ("left",), "←", "back one",
            "Take the choice before.", "Timed runs", bar=5),
    Command("runs", "help", ("question_mark", "f1"), "? F1", "help",
            "Every key, and how turns are counted.", "Timed runs", bar=4),
    Command("runs", "back", ("q", "escape"), "q Escape", "back",
            "Go home.", "Timed runs", bar=1),
    Command("run", "again", ("a",), "a", "again",
            "Another run on the same terms.", "A run that is over", bar=1),
    Command("run", "line", ("enter",), "Enter", "line",
            "The line of the marked row, beside a shortest one: later tries are marked as shown.",
            "A run that is over", bar=1),
    Command("run", "down", ("down",), "↓", "next row",
            "Mark the next row.", "A run that is over", bar=3),
    Command("run", "up", ("up",), "↑", "row before",
            "Mark the row before.", "A run that is over"),
    Command("run", "help", ("question_mark", "f1"), "? F1", "help",
            "Every key, and how turns are counted.", "A run that is over", bar=2),
    Command("run", "back", ("q", "escape"), "q Escape", "back",
            "Back to the terms.", "A run that is over", bar=1),
)  # fmt: skip
