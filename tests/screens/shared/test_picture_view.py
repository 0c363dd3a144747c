from __future__ import annotations

from textual.geometry import Region

from game.draw.cells import Run
from game.screens.shared.picture_view import PictureView
from tests.screens.conftest import Start

RED, BLUE = (200, 0, 0), (0, 0, 200)


async def test_only_changed_rows_are_drawn_again(start: Start) -> None:
    """Of three rows one changes, and only that one is refreshed."""
    asked: list[Region] = []

    class Watched(PictureView):
        def refresh(self, *regions: Region, **options: bool) -> Watched:
            asked.extend(regions)
            super().refresh(*regions, **options)
            return self

    async with start() as game:
        view = Watched()
        await game.app.screen.mount(view)
        rows = tuple((Run("ab", RED),) for _ in range(3))
        view.show(rows)
        await game.settle()
        asked.clear()
        view.show((rows[0], (Run("ab", BLUE),), rows[2]))
        assert [(region.y, region.height) for region in asked] == [(1, 1)]


async def test_an_equal_picture_draws_nothing(start: Start) -> None:
    """The same picture once more asks for no refresh."""
    asked: list[int] = []

    class Watched(PictureView):
        def refresh(self, *regions: Region, **options: bool) -> Watched:
            asked.append(1)
            super().refresh(*regions, **options)
            return self

    async with start() as game:
        view = Watched()
        await game.app.screen.mount(view)
        view.show(((Run("ab", RED),),))
        await game.settle()
        asked.clear()
        view.show(((Run("ab", RED),),))
        assert asked == []


async def test_inks_reach_the_screen(start: Start) -> None:
    """A run's colours, true or of the palette, become those of its segment."""
    async with start() as game:
        view = PictureView()
        await game.app.screen.mount(view)
        view.show(((Run("a", RED, BLUE, True), Run("b", 9)),))
        await game.until(lambda: view.size.width > 1)
        first, second = list(view.render_line(0))[:2]
        assert first.text == "a"
        assert first.style is not None
        assert second.style is not None
        assert first.style.bold
        assert (first.style.color.triplet, first.style.bgcolor.triplet) == (RED, BLUE)
        assert second.style.color.number == 9
