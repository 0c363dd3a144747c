"""The lines of several players beside each other."""
