"""The screen at which one plays a position."""
