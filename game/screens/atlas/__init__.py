"""The atlas on the screen."""
