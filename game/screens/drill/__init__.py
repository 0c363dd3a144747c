"""The drill on the screen."""
