"""Competitions among friends: contests, cards, their codes, rankings, and table matches."""
