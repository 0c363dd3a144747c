"""What friends have sent, put together by contest."""

from __future__ import annotations

from game.friends.chat import Chat
from game.friends.codes import Addressed, card_code, find, invite_code, key
from game.friends.contest import Card
from tests.friends.test_entry import CONTEST, RESULTS

ADA, BO = (Addressed(key(CONTEST), Card(name, RESULTS)) for name in ("Ada", "Bo"))
DAY = Addressed("2026-11-25", Card("Ada", RESULTS))


def test_invites_and_cards_come_together() -> None:
    """By the contest's key, or by the date; in the order in which they came."""
    pasted = "\n> ".join([card_code(DAY), card_code(BO), invite_code(CONTEST), card_code(ADA)])
    chat = Chat().more(find([pasted]))
    assert chat.kinds == (key(CONTEST), "2026-11-25")
    assert chat.contests == {key(CONTEST): CONTEST}
    assert chat.cards_for(key(CONTEST)) == (BO.card, ADA.card)
    assert chat.cards_for("2026-11-25") == (DAY.card,)
    assert chat.cards_for("2026-11-24") == ()


def test_what_comes_again_is_kept_once() -> None:
    """A chat that is pasted a second time adds what is new in it, no more."""
    first = Chat().more(find([card_code(ADA)]))
    second = first.more(find([f"{card_code(ADA)} {card_code(BO)}"]))
    assert first.cards_for(key(CONTEST)) == (ADA.card,)
    assert second.cards_for(key(CONTEST)) == (ADA.card, BO.card)
