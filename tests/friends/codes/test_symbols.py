"""Numbers as checked symbols between two marks."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from game.errors import CodeError, CodeNewer
from game.friends.codes.symbols import (
    ALPHABET,
    CHECKS,
    END,
    FIELD,
    MAX_SYMBOLS,
    PREFIX,
    ROOT,
    checks,
    opened,
    sealed,
)

numbers = st.integers(0, 2**400)
kinds = st.sampled_from(ALPHABET)


def body(code: str) -> str:
    """What stands between the marks."""
    return code.removeprefix(PREFIX).removesuffix(END)


def test_the_check_symbols_of_a_published_code() -> None:
    """Over the field of 929 and at the powers of 3, as bar codes have it, 3 2 1 get these four.

    From memory: the worked example of a Reed-Solomon code over GF(929) in the article
    "Reed-Solomon error correction" of Wikipedia.
    """
    assert checks([3, 2, 1], 929, 3, 4) == [382, 191, 487, 474]


def test_the_field_is_one() -> None:
    """31 is a prime, and the powers of the root are all its numbers but nought."""
    assert all(FIELD % n for n in range(2, FIELD))
    assert {pow(ROOT, n, FIELD) for n in range(FIELD - 1)} == set(range(1, FIELD))
    assert len(set(ALPHABET)) == FIELD


@given(st.lists(st.integers(0, FIELD - 1), max_size=80))
def test_the_polynomial_is_zero_at_four_powers(symbols: list[int]) -> None:
    """With its check symbols, every message is zero there (evaluated by Horner's rule)."""
    whole = symbols + checks(symbols, FIELD, ROOT, CHECKS)
    for power in range(1, CHECKS + 1):
        value = 0
        for symbol in whole:
            value = (value * pow(ROOT, power, FIELD) + symbol) % FIELD
        assert value == 0


@given(kinds, numbers)
def test_what_is_sealed_can_be_opened(kind: str, number: int) -> None:
    """Kind and number come back; the code is letters and digits of even count between the marks."""
    code = sealed(kind, number)
    assert opened(body(code)) == (kind, number)
    assert code.startswith(PREFIX) and code.endswith(END)
    assert len(body(code)) % 2 == 0 and set(body(code)) <= set(ALPHABET)


@settings(max_examples=15)
@given(kinds, numbers)
def test_every_wrong_symbol_is_noticed(kind: str, number: int) -> None:
    """Whichever symbol is any other, the code is refused."""
    text = body(sealed(kind, number))
    for at, other in product(range(len(text)), ALPHABET):
        if other != text[at]:
            with pytest.raises(CodeError):
                opened(text[:at] + other + text[at + 1 :])


@given(kinds, numbers, st.data())
def test_a_symbol_too_many_or_too_few_is_noticed(
    kind: str, number: int, data: st.DataObject
) -> None:
    """The count is then odd."""
    text = body(sealed(kind, number))
    at = data.draw(st.integers(0, len(text) - 1))
    for damaged in (text[:at] + text[at + 1 :], text[:at] + data.draw(kinds) + text[at:]):
        with pytest.raises(CodeError, match=r"^a character of the code is wrong, missing or too"):
            opened(damaged)


def test_one_wrong_character_makes_no_mark() -> None:
    """Prefix and end mark have two letters that are no symbols, wherever they begin among some."""
    for mark in (PREFIX, END):
        assert sum(letter not in ALPHABET for letter in mark) >= 2


def test_a_later_version_is_named_as_such() -> None:
    """A sound code of the next version says so; there is none before the first."""
    for version, error in ((2, CodeNewer), (0, CodeError)):
        symbols = [ALPHABET.index("C"), version, 5, 5]
        symbols += checks(symbols, FIELD, ROOT, CHECKS)
        with pytest.raises(error):
            opened("".join(ALPHABET[symbol] for symbol in symbols))


@pytest.mark.parametrize(
    "text", ["", "V1", "V1\N{LATIN SMALL LETTER E WITH ACUTE}", "1" * (MAX_SYMBOLS + 1)]
)
def test_what_is_no_code(text: str) -> None:
    """Too little, too much and foreign letters are refused."""
    with pytest.raises(CodeError):
        opened(text)
