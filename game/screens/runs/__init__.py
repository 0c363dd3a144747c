"""Timed runs on the screen."""
