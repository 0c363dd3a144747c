"""Statistics as text pictures."""
