"""Contests among friends and the day's five on the screen."""
