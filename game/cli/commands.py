"""The plain commands, in the order in which the help lists them."""

from __future__ import annotations

from game.cli import atlas, card, check, export, help, invite, join, par, standings, tables, where

COMMANDS = (par, atlas, invite, join, card, standings, check, export, tables, where, help)
"""Each a module with its name, help and description, and how to define and run it."""
