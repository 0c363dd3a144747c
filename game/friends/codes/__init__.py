"""Contests and cards as text that survives a chat: letters and digits, checked, with an end."""

from __future__ import annotations

from game.friends.codes.card import Addressed, card_code
from game.friends.codes.finding import Findings, find, read_card, read_invite
from game.friends.codes.invite import invite_code, key
from game.friends.codes.symbols import PREFIX

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
