"""A screen is left once, whatever comes, and from the front."""

from __future__ import annotations

from textual.await_complete import AwaitComplete
from textual.screen import Screen, ScreenResultType


class LeftOnce(Screen[ScreenResultType]):
    """A screen that answers once. Whoever asks again, or from beneath another, is not heard."""

    has_left = False
    """Whether it has answered."""

    def dismiss(self, result: ScreenResultType | None = None) -> AwaitComplete:
        """As Textual does it, but once."""
        if self.has_left or not self.is_current or len(self.app.screen_stack) < 2:
            return AwaitComplete()
        self.has_left = True
        return super().dismiss(result)
