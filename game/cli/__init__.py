"""The command `pairwright`: the game, and plain commands beside it.

    main      starts the game or runs the command, turns every error into one line
    arguments their parser          exits      the exit codes
    play      the game              par        exact par of a setup
    atlas     every placement       check      proves packs
    tables    of the search         where      tells the files

    questions a setup searched; the answer in words and JSON
    paper     the atlas as text, Markdown, JSON
    watch     progress and Ctrl-C   proving    packs searched; tables, warnings and faults
                                    paint      a picture for a terminal

The plain commands import neither Textual nor the screens, and NumPy only when they search.
"""

from game.cli.main import main

__all__ = ["main"]
