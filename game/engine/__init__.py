"""Searches beside the game or a command: what can be asked, what is answered, with which tables."""
