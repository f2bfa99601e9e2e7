"""Who is let in: by Host and Origin, by key, by cookie, and never by anything else."""

from __future__ import annotations

import hashlib
import hmac
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from walkaround.access.admission import (
    MOST_ADDRESSES,
    MOST_WRONG,
    WINDOW_S,
    Admission,
    RequestHead,
    WrongKeys,
    client_network,
    cookie_name,
    cookie_value,
    is_same_secret,
)

KEY = "k" * 21 + "-_" + "Z" * 20
HERE = RequestHead(client="127.0.0.1", scheme="http", hosts=("127.0.0.1:8765",))
PHONE = RequestHead(client="192.0.2.9", scheme="http", hosts=("192.0.2.7:8765",))


def cookie(key: str = KEY, name: str = "walkaround_pairing") -> tuple[str]:
    return (f"other=1; {name}={cookie_value(key)}",)


PAIRED = replace(PHONE, cookies=cookie())


def act(head: RequestHead, key: str | None = KEY) -> str:
    return Admission().decide(head, key, 0.0).act


# this machine only


@pytest.mark.parametrize(
    "host",
    [
        "localhost",
        "LOCALHOST:1",
        "127.0.0.1:8765",
        "127.3.2.1",
        "[::1]:9",
        "[0:0:0:0:0:0:0:1]",
        "[::ffff:127.0.0.1]:1",
    ],
)
def test_without_a_key_a_page_of_this_machine_enters(host: str) -> None:
    origin = f"http://{host}"
    assert act(replace(HERE, hosts=(host,)), None) == "enter"
    assert act(replace(HERE, hosts=(host,), origins=(origin,), socket=True), None) == "enter"


@pytest.mark.parametrize(
    "hosts",
    [
        (), ("",), ("attacker.example",), ("attacker.example:8765",), ("192.0.2.7:8765",),
        ("127.0.0.1.attacker.example",), ("localhost.attacker.example",), ("localhost.",),
        ("127.0.0.1@attacker.example",), ("127.0.0.1:8765", "127.0.0.1:8765"), ("[::1",),
        ("0.0.0.0:8765",), ("127.0.0.1:",), ("127.0.0.1:x",), ("127.0.0.1 ",), ("١٢٧.0.0.1",),
        ("2130706433",), ("127.1",), ("127.0.0.1\r\nx: y",),
    ],
)  # fmt: skip
def test_a_name_that_leads_here_from_elsewhere_is_foreign(hosts: tuple[str, ...]) -> None:
    """DNS rebinding: the browser asks this machine, in the name of the attacker's page."""
    assert act(replace(HERE, hosts=hosts), None) == "foreign"


@pytest.mark.parametrize("key", [None, KEY])
@pytest.mark.parametrize(
    "origins",
    [
        ("http://attacker.example",), ("null",), ("",), ("https://127.0.0.1:8765",),
        ("http://127.0.0.1",), ("http://127.0.0.1:8766",), ("http://localhost:8765",),
        ("http://127.0.0.1:8765/",), ("http://127.0.0.1:8765", "http://127.0.0.1:8765"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("socket", [False, True])
def test_what_another_page_asks_for_is_foreign(
    origins: tuple[str, ...], socket: bool, key: str | None
) -> None:
    head = replace(HERE, origins=origins, socket=socket, cookies=cookie())
    assert act(head, key) == "foreign"


@pytest.mark.parametrize("key", [None, KEY])
def test_a_socket_and_whatever_is_no_reading_must_tell_their_origin(key: str | None) -> None:
    head = replace(HERE, cookies=cookie())
    assert act(replace(head, socket=True), key) == "foreign"
    for method in ("POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "DANCE"):
        assert act(replace(head, method=method), key) == "foreign"
        at_home = replace(head, method=method, origins=("http://127.0.0.1:8765",))
        assert act(at_home, key) == "enter"
    for method in ("GET", "HEAD"):
        assert act(replace(head, method=method), key) == "enter"


# paired devices


def test_the_right_cookie_enters_and_the_right_key_pairs() -> None:
    assert act(PAIRED) == "enter"
    assert act(replace(PHONE, query=f"key={KEY}")) == "pair"
    assert act(replace(PHONE, query=f"a=1&key={KEY}&b=2", method="HEAD")) == "pair"


def test_the_cookie_is_made_from_the_key_by_a_keyed_digest() -> None:
    """HMAC (RFC 2104) with SHA-256, by the standard library's one-shot function."""
    right = hmac.digest(KEY.encode(), b"walkaround: paired", "sha256").hex()
    assert cookie_value(KEY) == right
    assert KEY not in right
    assert hashlib.sha256(KEY.encode()).hexdigest() != right


def test_a_paired_device_that_opens_an_old_address_is_only_led_on() -> None:
    assert act(replace(PAIRED, query="key=old")) == "pair"


@pytest.mark.parametrize(
    "shown",
    [
        {}, {"query": "key="}, {"query": "key"}, {"query": f"Key={KEY}"},
        {"query": f"key={KEY}x"}, {"query": f"key={KEY[:-1]}"}, {"query": f"k=1;key={KEY}"},
        {"query": f"key={KEY}&key={KEY}"},
        {"query": f"key={KEY}\0"}, {"query": "key=%ff%fe"}, {"query": f"key={cookie_value(KEY)}"},
        {"query": f"key={KEY}", "socket": True, "origins": ("http://192.0.2.7:8765",)},
        {"query": f"key={KEY}", "method": "POST", "origins": ("http://192.0.2.7:8765",)},
        {"cookies": (f"walkaround_pairing={KEY}",)}, {"cookies": ("walkaround_pairing=",)},
        {"cookies": ("walkaround_pairing",)}, {"cookies": cookie("old")},
        {"cookies": cookie(name="Walkaround_Pairing")},
        {"cookies": cookie(name="__Host-walkaround_pairing")},
        {"cookies": (f'walkaround_pairing="{cookie_value(KEY)}"',)},
        {"cookies": (cookie_value(KEY),)}, {"cookies": ("walkaround_pairing=\xff\xfe",)},
    ],
)  # fmt: skip
def test_nothing_but_the_right_key_or_cookie_is_let_in(shown: dict[str, object]) -> None:
    assert act(replace(PHONE, **shown)) == "unpaired"  # type: ignore[arg-type]


@given(st.text(), st.text(), st.lists(st.text(), max_size=3), st.sampled_from(["GET", "HEAD"]))
def test_no_text_at_all_lets_anybody_in(
    query: str, value: str, cookies: list[str], method: str
) -> None:
    assume(KEY not in query)
    made = (f"walkaround_pairing={value}", *cookies)
    head = replace(PHONE, method=method, query=query, cookies=made)
    assert act(head) == "unpaired"


def test_over_https_the_cookie_has_a_name_that_only_a_secure_page_can_give() -> None:
    """RFC 6265bis, 4.1.3.2, from memory."""
    assert cookie_name("https") == "__Host-" + cookie_name("http")
    secure = replace(PHONE, scheme="https")
    assert act(replace(secure, cookies=cookie(name=cookie_name("https")))) == "enter"
    assert act(replace(secure, cookies=cookie())) == "unpaired"


def test_a_new_key_makes_every_cookie_void() -> None:
    admission = Admission()
    assert admission.decide(PAIRED, KEY, 0.0).act == "enter"
    assert admission.decide(PAIRED, "n" * 43, 0.0).act == "unpaired"


# guesses


def guessed(admission: Admission, count: int) -> list[str]:
    heads = [replace(PHONE, query=f"key=guess{number}") for number in range(count)]
    return [admission.decide(head, KEY, 1.0).act for head in heads]


def test_after_ten_wrong_keys_the_address_waits_even_with_the_right_one() -> None:
    admission = Admission()
    assert guessed(admission, 12) == ["unpaired"] * MOST_WRONG + ["wait"] * 2
    right = replace(PHONE, query=f"key={KEY}")
    waits = admission.decide(right, KEY, 31.0)
    assert (waits.act, waits.wait_s) == ("wait", 30)
    assert admission.decide(replace(right, client="192.0.2.10"), KEY, 31.0).act == "pair"
    assert admission.decide(right, KEY, 61.0).act == "pair"


def test_wrong_cookies_count_as_wrong_keys_do() -> None:
    admission = Admission()
    for number in range(MOST_WRONG):
        head = replace(PHONE, cookies=(f"walkaround_pairing=guess{number}",))
        assert admission.decide(head, KEY, 1.0).act == "unpaired"
    assert admission.decide(PHONE, KEY, 1.0).act == "wait"


def test_a_paired_device_is_never_hindered_not_even_at_the_same_address() -> None:
    admission = Admission()
    guessed(admission, 1000)
    assert admission.decide(PAIRED, KEY, 1.0).act == "enter"


def test_who_shows_nothing_guesses_nothing() -> None:
    admission = Admission()
    assert {admission.decide(PHONE, KEY, 1.0).act for _ in range(100)} == {"unpaired"}


@given(st.text(), st.text())
def test_two_texts_are_the_same_only_if_they_are(one: str, other: str) -> None:
    assert is_same_secret(one, one)
    assert is_same_secret(one, other) == (one == other)


def test_texts_are_compared_in_constant_time(monkeypatch: pytest.MonkeyPatch) -> None:
    """No other comparison of a key or a cookie is made: with this one broken nobody gets in."""
    monkeypatch.setattr(hmac, "compare_digest", lambda *_: False)
    assert act(PAIRED) == "unpaired"
    assert act(replace(PHONE, query=f"key={KEY}")) == "unpaired"


# wrong keys, by address

SHOP = "192.0.2.7"


def tried(guesses: WrongKeys, count: int, at_s: float = 0.0, client: str = SHOP) -> None:
    for number in range(count):
        guesses.note(client, f"wrong {number}", at_s)


def test_ten_different_wrong_keys_in_a_minute_and_the_address_waits() -> None:
    guesses = WrongKeys()
    tried(guesses, MOST_WRONG - 1)
    assert guesses.wait_s(SHOP, 1.0) == 0
    guesses.note(SHOP, "one more", 1.0)
    assert guesses.wait_s(SHOP, 1.0) == 59
    assert guesses.wait_s("192.0.2.8", 1.0) == 0


def test_the_wait_is_over_when_the_minute_is() -> None:
    guesses = WrongKeys()
    tried(guesses, MOST_WRONG)
    assert guesses.wait_s(SHOP, WINDOW_S - 0.01) == 1
    assert guesses.wait_s(SHOP, WINDOW_S) == 0


def test_the_same_wrong_key_again_and_again_is_one_guess() -> None:
    """As a page shows it that was left open when the key was changed."""
    guesses = WrongKeys()
    for at_s in range(50):
        guesses.note(SHOP, "the old key", float(at_s))
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
    assert (client_network(one) == client_network(other)) is alike


def test_no_more_addresses_are_remembered_than_there_is_room_for() -> None:
    guesses = WrongKeys()
    tried(guesses, MOST_WRONG, client="first")
    for number in range(MOST_ADDRESSES - 1):
        guesses.note(f"client {number}", "x", 1.0)
    assert guesses.wait_s("first", 1.0) > 0
    guesses.note("one too many", "x", 1.0)
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
    guesses, now_s = WrongKeys(), 0.0
    looked_at: dict[str, list[tuple[float, int]]] = {}
    for later_s, client, key in shown:
        now_s += later_s
        wait_s = guesses.wait_s(client, now_s)
        who = client[:5]
        recent = {old for at_s, old in looked_at.get(who, []) if now_s - at_s < WINDOW_S}
        assert (wait_s > 0) == (len(recent) >= MOST_WRONG)
        assert 0 <= wait_s <= WINDOW_S
        if not wait_s:
            guesses.note(client, str(key), now_s)
            if key not in recent:
                looked_at.setdefault(who, []).append((now_s, key))
