"""A table match on the screen."""
