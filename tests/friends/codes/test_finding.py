"""Codes found in any text, and damage that never goes unnoticed."""

from __future__ import annotations

import tracemalloc
from string import ascii_uppercase, digits

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.cube.moves import parse_line
from game.errors import CodeError
from game.friends.codes import (
    Addressed,
    card_code,
    find,
    finding,
    invite_code,
    read_card,
    read_invite,
)
from game.friends.codes.finding import MAX_CODES, MAX_FAULTS
from game.friends.codes.symbols import END, MAX_SYMBOLS, PREFIX, sealed
from game.friends.contest import Card, Contest
from game.play.position import position_after
from game.play.result import Result
from tests.friends.codes.values import cards

CONTEST = Contest("Tea", tuple(position_after(parse_line(s)) for s in ("R U R'", "F' U2 F R'")))
INVITE = invite_code(CONTEST)
RESULT = Result(parse_line("y R U' R'"), 412, 230, called=True, solved=True)
ADA, BO = (Addressed("0123456789", Card(name, (RESULT, RESULT))) for name in ("Ada", "Bo"))
CARD, OTHER = card_code(ADA), card_code(BO)
CHARACTERS = digits + ascii_uppercase + "-"
"""What a code may be written with."""
SEPARATORS = ("\n> ", " ", "-", "\r\n>> ", "\n- ", "\n* ", "\u200b", "\n\u2022 ", "\t|")
TALK = "The pair, to repair; an e-pair. EPAI Rover over! 1. OVER "
"""Other text, with words that look like marks."""

LENGTH = 150_000
"""Characters, beyond which no text takes more room."""
ROOM = 1_500_000
"""Bytes, a little more than what is needed at once."""

pieces = st.lists(st.sampled_from([CARD, OTHER, INVITE, TALK, "\n", "EPAIR", END, "-"]))


def broken(code: str, separator: str, every: int) -> str:
    """The code with a separator after every so many characters."""
    return separator.join(code[i : i + every] for i in range(0, len(code), every))


@pytest.mark.parametrize("code", [INVITE, CARD], ids=["invite", "card"])
def test_every_wrong_character_after_the_prefix_is_noticed(code: str) -> None:
    """Each character after the prefix, exchanged for each other letter, digit or hyphen."""
    tried = 0
    for at in range(len(PREFIX), len(code)):
        for other in CHARACTERS:
            if other != code[at]:
                found = find([code[:at] + other + code[at + 1 :]])
                assert not found.invites and not found.cards and len(found.faults) == 1
                tried += 1
    assert tried == (len(code) - len(PREFIX)) * (len(CHARACTERS) - 1)


@pytest.mark.parametrize("every", [1, 7, 64])
@pytest.mark.parametrize("separator", SEPARATORS, ids=ascii)
def test_chats_may_break_a_code(separator: str, every: int) -> None:
    """Line breaks, quoting, spaces, hyphens and list marks inside count nothing, nor does case."""
    text = f"{TALK}{separator}{broken(CARD.swapcase(), separator, every)}{separator}{TALK}"
    assert read_card(text) == ADA


@given(st.lists(st.sampled_from([CARD, OTHER, INVITE]), max_size=5), st.sampled_from(["", "\n"]))
def test_codes_glued_together_are_found_each_once(codes: list[str], glue: str) -> None:
    """One after another without a gap, or a line each; one that comes again is found once."""
    found = find([glue.join(codes)])
    assert found.faults == ()
    assert set(found.cards) == {{CARD: ADA, OTHER: BO}[c] for c in codes if c != INVITE}
    assert found.invites == ((CONTEST,) if INVITE in codes else ())
    assert len(found.cards) == len(set(found.cards))


def test_a_code_after_any_letter_is_found() -> None:
    """What stands before a prefix may be glued to it; what follows the end mark may not."""
    assert read_card(f"here{CARD}") == ADA
    with pytest.raises(CodeError, match=r"cut off or damaged, no OVER at its end$"):
        read_card(f"{CARD}T")


@pytest.mark.parametrize("code", [INVITE, CARD], ids=["invite", "card"])
def test_a_code_cut_off_anywhere_is_a_fault(code: str) -> None:
    """At its end, in the middle of other text, and before another code, which is found."""
    for length in range(len(PREFIX) + 8, len(code)):
        for rest in ("", " and so on", OTHER, f"\n{OTHER}"):
            found = find([code[:length] + rest])
            assert not found.invites and len(found.faults) == 1
            assert found.cards == ((BO,) if OTHER in rest else ())


@pytest.mark.parametrize(
    "talk",
    [
        "what is EPAIR",
        "EPAIR",
        "EPAIR?\n[12.11.2026, 19:03] Ada: the prefix of a code",
        "EPAIR and OVER. EPAIR over",
        "epair c1",
        "a repair v1 of the thing",
        "EPAIR: my friend",
    ],
)
@pytest.mark.parametrize("rest", ["", f"\n{CARD}"])
def test_the_prefix_may_be_a_word(talk: str, rest: str) -> None:
    """Talk of it is no damaged code, and a card after it is found."""
    found = find([talk + rest])
    assert found.faults == ()
    assert found.cards == ((ADA,) if rest else ())


@given(st.lists(st.sampled_from([CARD[:-1], CARD, "talk", "\n", "> \n", " "])), st.integers(1, 60))
def test_the_line_of_a_fault_is_told(parts: list[str], size: int) -> None:
    """Whatever stands before it and however the text is cut."""
    text = "\n".join([*parts, "look:", INVITE[:40]])
    (*_, fault) = find(text[i : i + size] for i in range(0, len(text), size)).faults
    assert fault.placed.startswith(f"line {text.count(chr(10)) + 1}: the code that begins EPAIRV1")


def test_interleaved_codes_are_faults() -> None:
    """Lines of two codes by turns: both are told, neither is taken for anything."""
    one, other = (broken(code, "\n", 20).split("\n") for code in (CARD, OTHER))
    found = find(["\n".join(line for both in zip(one, other, strict=False) for line in both)])
    assert not found.cards and len(found.faults) == 2


@given(pieces, st.integers(1, 60))
def test_a_text_may_come_in_any_pieces(parts: list[str], size: int) -> None:
    """Cut anywhere, the same is found as in the whole."""
    text = "".join(parts)
    cut = [text[i : i + size] for i in range(0, len(text), size)]
    whole = find([text])
    whole, again = find([text]), find(cut)
    assert (again.invites, again.cards, again.more) == (whole.invites, whole.cards, whole.more)
    assert list(map(str, again.faults)) == list(map(str, whole.faults))


@given(st.text() | pieces.map("".join) | st.text(CHARACTERS + " \n").map(lambda t: PREFIX + t))
def test_no_text_crashes(text: str) -> None:
    """Whatever stands in a text, what is found is right and everything else is told."""
    found = find([text])
    assert all(card in (ADA, BO) for card in found.cards)
    assert all(str(fault).count("\n") == 0 for fault in found.faults)


@given(st.sampled_from("VCD"), st.integers(0, 2**600))
def test_a_sound_code_of_anything_never_crashes(kind: str, number: int) -> None:
    """A number that nobody packed is read as something, or is a fault."""
    found = find([sealed(kind, number)])
    assert len(found.invites) + len(found.cards) + len(found.faults) == 1


@given(cards())
def test_a_card_is_the_same_after_being_read(addressed: Addressed) -> None:
    """What is read from a code makes the same code again."""
    assert card_code(read_card(card_code(addressed))) == card_code(addressed)


@pytest.mark.parametrize(
    "part",
    ["EPAIR ", "EPAIR1 ", "e p a i ", "EPAIRC1OVER ", "E\n", ">-", "over", "EPAIRC1-\n", CARD],
)
def test_a_large_text_takes_little_room(part: str) -> None:
    """Of a long text, nothing but what was found is kept."""
    text = part * (LENGTH // len(part))
    chunks = [text[i : i + 65_536] for i in range(0, len(text), 65_536)]
    find(["EPAIR"])
    tracemalloc.start()
    try:
        find(chunks)
        assert tracemalloc.get_traced_memory()[1] < ROOM
    finally:
        tracemalloc.stop()


def test_a_code_without_end_is_given_up() -> None:
    """More symbols than any code has are one fault, not memory."""
    found = find(["EPAIRC1"] + ["0" * 65_536] * 5)
    assert [str(fault) for fault in found.faults] == [
        "the code that begins EPAIRC10000000000: longer than any"
    ]
    assert MAX_SYMBOLS < 65_536


def test_faults_without_end_are_counted() -> None:
    """The first are told, the rest is a number."""
    found = find(["EPAIRC1234567 " * (MAX_FAULTS + 7)])
    assert (len(found.faults), found.more) == (MAX_FAULTS, 7)


def test_there_is_a_bound_to_what_is_found() -> None:
    """A text of more different codes than anybody has friends is refused."""

    def code(number: int) -> str:
        return card_code(Addressed("0123456789", Card(str(number), (RESULT,))))

    with pytest.raises(CodeError, match=rf"^more than {MAX_CODES} invites and cards in one text$"):
        find(map(code, range(MAX_CODES + 1)))


def test_there_is_a_bound_to_all_of_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """Codes that are few but long are refused before they fill the memory."""
    assert find([CARD, OTHER]).cards == (ADA, BO)
    monkeypatch.setattr(finding, "MAX_READ", len(CARD))
    with pytest.raises(
        CodeError, match=r"^invites and cards of more than \d+ symbols in one text$"
    ):
        find([CARD, OTHER])


def test_damaged_codes_count_against_the_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    """Looking into one takes as long as into a whole one, so that there is an end to it."""
    long = f"{PREFIX}C1{'0' * 5000}{END}"
    damaged = [f"{long}\n"] * 30
    found = find(damaged)
    assert len(found.faults) + found.more == 30
    monkeypatch.setattr(finding, "MAX_READ", 100_000)
    with pytest.raises(CodeError, match=r"^invites and cards of more than 100000 symbols"):
        find(damaged)


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("", f"no card in this text: one begins with {PREFIX} and ends with {END}"),
        (INVITE, f"no card in this text: one begins with {PREFIX} and ends with {END}"),
        (CARD + OTHER, "2 cards where one is expected"),
        (CARD[:-1], f"the code that begins {CARD[:17]}: cut off or damaged, no OVER at its end"),
    ],
)
def test_one_card_is_expected(text: str, problem: str) -> None:
    """None, another thing, two or a damaged one are told in one line."""
    with pytest.raises(CodeError, match=f"^{problem}$"):
        read_card(text)


def test_one_invite_is_expected() -> None:
    """An invite is found among cards."""
    assert read_invite(f"{CARD} {INVITE}") == CONTEST
