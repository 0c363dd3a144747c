"""How the README's pictures are drawn."""

from __future__ import annotations

from xml.etree import ElementTree

from hypothesis import given
from hypothesis import strategies as st
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from tests.pictures import CELL, PICTURES, SCENES, rectangles, svg

GROUND = "#000000"
COLOURS = st.sampled_from([GROUND, "#ff0000", "#00ff00"])


@given(
    st.integers(1, 6).flatmap(
        lambda wide: st.lists(
            st.lists(COLOURS, min_size=wide, max_size=wide), min_size=1, max_size=6
        )
    )
)
def test_rectangles_paint_the_pixels(pixels: list[list[str]]) -> None:
    """Painted on the ground, the rectangles give back every pixel, and none twice."""
    painted = [[GROUND] * len(row) for row in pixels]
    for x, y, wide, high, colour in rectangles(pixels, GROUND):
        for row in painted[y : y + high]:
            assert row[x : x + wide] == [GROUND] * wide
            row[x : x + wide] = [colour] * wide
    assert painted == pixels


@given(
    st.lists(
        st.lists(
            st.sampled_from([GROUND, *(f"#{n:06x}" for n in range(1, 30))]), min_size=9, max_size=9
        ),
        min_size=1,
        max_size=9,
    )
)
def test_rectangles_come_in_one_order(pixels: list[list[str]]) -> None:
    """By their lowest rows, tops and left sides: nothing of how a process hashes text."""
    found = list(rectangles(pixels, GROUND))
    assert found == sorted(found, key=lambda one: (one[1] + one[3], one[1], one[0]))


def test_a_block_is_a_rectangle_and_a_word_is_text() -> None:
    """Half blocks become rectangles of their colours, words stand at their column, escaped."""
    red = Style(color="#ff0000", bgcolor="#00ff00")
    strip = Strip([Segment("▀▀", red), Segment(" a<b", Style(color="#ffffff", bold=True))])
    drawn = ElementTree.fromstring(svg([strip], GROUND, "#ffffff"))
    names = {"s": "http://www.w3.org/2000/svg"}
    blocks = [
        tuple(rect.get(key) for key in ("x", "y", "width", "height", "fill"))
        for rect in drawn.findall("s:g/s:rect", names)
    ]
    assert sorted(blocks) == [("0", "0", "2", "1", "#ff0000"), ("0", "1", "2", "1", "#00ff00")]
    (word,) = drawn.findall("s:g/s:text", names)
    assert (word.text, word.get("x"), word.get("font-weight")) == ("a<b", str(3 * CELL), "bold")


def test_every_scene_is_shown() -> None:
    """Each scene has its picture, which can be read as XML; README or gallery show it, not both."""
    readme = (PICTURES.parent / "README.md").read_text(encoding="utf-8")
    gallery = (PICTURES / "README.md").read_text(encoding="utf-8")
    assert sorted(path.stem for path in PICTURES.glob("*.svg")) == sorted(SCENES)
    for name in SCENES:
        ElementTree.parse(PICTURES / f"{name}.svg")
        assert (f"](.pictures/{name}.svg)" in readme) != (f"]({name}.svg)" in gallery)
