"""Contests and cards as text that survives a chat: letters and digits, checked, with an end."""

from __future__ import annotations

from game.contest import Card, Contest

Carried = Contest | Card
"""What a code carries: an invite the contest itself, a card what one player made of it."""
