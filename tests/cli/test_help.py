"""The pages of the manual, on paper and in a terminal."""

from __future__ import annotations

import pytest

from game.cli import main
from game.manual import page, subjects
from tests.cli.running import ended, spawn


def test_without_a_subject_the_pages_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    """The list names every page."""
    assert main(["help"]) == 0
    out = capsys.readouterr().out
    assert len(subjects()) > 10
    assert all(f"[{subject}]" in out for subject in subjects())


@pytest.mark.parametrize("subject", subjects())
def test_a_page_goes_to_a_pipe_as_it_is_written(
    subject: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Plain text, nothing laid out."""
    assert main(["help", subject]) == 0
    assert capsys.readouterr().out == page(subject)


def test_a_page_that_is_not_there(capsys: pytest.CaptureFixture[str]) -> None:
    """One line, with what was perhaps meant."""
    assert main(["help", "packz"]) == 1
    told = 'pairwright: there is no page "packz"; did you mean "packs"?\n'
    assert capsys.readouterr().err == told
    assert main(["help", "../../etc/passwd"]) == 1


def test_in_a_terminal_it_is_laid_out() -> None:
    """The heading stands without its sign."""
    terminal = spawn("help", "counting")
    terminal.expect("Counting")
    terminal.expect("outer block turn")
    assert ended(terminal) == 0
