"""The command `pairwright`: the game, and plain commands beside it.

`main` starts the game or runs the command, and turns every error into one line; `arguments` lists
the plain commands, a module each, and parses what they are given. What several of them share stands
beside them. The plain commands import neither Textual nor the screens, and NumPy only when they
search.
"""

from game.cli.main import main

__all__ = ["main"]
