"""Wrong keys are counted by address, and enough of them make it wait."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.access.guesses import ADDRESSES, MOST, WINDOW_S, Guesses, guesser

SHOP = "192.0.2.7"


def tried(guesses: Guesses, count: int, at_s: float = 0.0, client: str = SHOP) -> None:
    for number in range(count):
        guesses.wrong(client, f"wrong {number}", at_s)


def test_ten_different_wrong_keys_in_a_minute_and_the_address_waits() -> None:
    guesses = Guesses()
    tried(guesses, MOST - 1)
    assert guesses.wait_s(SHOP, 1.0) == 0
    guesses.wrong(SHOP, "one more", 1.0)
    assert guesses.wait_s(SHOP, 1.0) == 59
    assert guesses.wait_s("192.0.2.8", 1.0) == 0


def test_the_wait_is_over_when_the_minute_is() -> None:
    guesses = Guesses()
    tried(guesses, MOST)
    assert guesses.wait_s(SHOP, WINDOW_S - 0.01) == 1
    assert guesses.wait_s(SHOP, WINDOW_S) == 0


def test_the_same_wrong_key_again_and_again_is_one_guess() -> None:
    """As a page shows it that was left open when the key was changed."""
    guesses = Guesses()
    for at_s in range(50):
        guesses.wrong(SHOP, "the old key", float(at_s))
    assert guesses.wait_s(SHOP, 50.0) == 0


@pytest.mark.parametrize(
    ("one", "other", "alike"),
    [
        ("2001:db8:1:2::7", "2001:db8:1:2:ffff::9", True),
        ("2001:db8:1:2::7", "2001:db8:1:3::7", False),
        ("::ffff:192.0.2.7", "192.0.2.7", True),
        ("192.0.2.7", "192.0.2.8", False),
        ("fe80::1%eth0", "fe80::2%eth0", True),
        ("", "", True),
    ],
)
def test_an_ipv6_network_is_one_guesser_and_a_mapped_address_the_ipv4_one(
    one: str, other: str, alike: bool
) -> None:
    assert (guesser(one) == guesser(other)) is alike


def test_no_more_addresses_are_remembered_than_there_is_room_for() -> None:
    guesses = Guesses()
    tried(guesses, MOST, client="first")
    for number in range(ADDRESSES - 1):
        guesses.wrong(f"client {number}", "x", 1.0)
    assert guesses.wait_s("first", 1.0) > 0
    guesses.wrong("one too many", "x", 1.0)
    assert guesses.wait_s("first", 1.0) == 0


@given(
    st.lists(
        st.tuples(
            st.floats(0, 20), st.sampled_from(["a", "b", "2001:db8::1", "2001:db8::2"]),
            st.integers(0, 30),
        ),
        max_size=120,
    )
)  # fmt: skip
def test_no_minute_sees_more_than_ten_guesses_looked_at(
    shown: list[tuple[float, str, int]],
) -> None:
    """Whatever is shown by whom and when: counted anew here from what was let through."""
    guesses, now_s = Guesses(), 0.0
    looked_at: dict[str, list[tuple[float, int]]] = {}
    for later_s, client, key in shown:
        now_s += later_s
        wait_s = guesses.wait_s(client, now_s)
        who = client[:5]
        recent = {old for at_s, old in looked_at.get(who, []) if now_s - at_s < WINDOW_S}
        assert (wait_s > 0) == (len(recent) >= MOST)
        assert 0 <= wait_s <= WINDOW_S
        if not wait_s:
            guesses.wrong(client, str(key), now_s)
            if key not in recent:
                looked_at.setdefault(who, []).append((now_s, key))
