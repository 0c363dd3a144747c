"""The command `pairwright`: the game, and plain commands beside it.

`main` reads the arguments, runs the command and turns every error into one line; `commands` lists
the plain commands, a module each. What several of them share stands beside them. The plain commands
import neither Textual nor the screens, and NumPy only when they search.
"""

from game.cli.main import main

__all__ = ["main"]
