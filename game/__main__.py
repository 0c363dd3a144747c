"""`python -m game`: the same as the command `pairwright`."""

import sys

from game.cli import main

sys.exit(main())
