"""One attempt at one position: the rules, without a screen and without a file."""
