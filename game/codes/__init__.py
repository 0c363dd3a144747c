"""Contests and cards as text that survives a chat: letters and digits, checked, with an end."""

from __future__ import annotations

from game.codes.card import Addressed, card_code
from game.codes.finding import Findings, find, read_card, read_invite
from game.codes.invite import invite_code, key
from game.codes.symbols import PREFIX

__all__ = [
    "PREFIX",
    "Addressed",
    "Findings",
    "card_code",
    "find",
    "invite_code",
    "key",
    "read_card",
    "read_invite",
]
