"""Certificates for https, checked by OpenSSL in handshakes of the standard library's ssl."""

from __future__ import annotations

import hashlib
import os
import ssl
import stat
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ec

from walkaround.access.certificate import Certificate, load_certificate, stored_certificate
from walkaround.base.errors import InputError

NOW = datetime.now(UTC)
NAMES = ("192.0.2.7", "localhost", "127.0.0.1", "::1", "depot-pc", "depot-pc.local")


def shaken(certificate: Certificate, name: str) -> bytes:
    """A TLS handshake in memory with a client that trusts this certificate: what it was shown."""
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(certificate.chain, certificate.private_key)
    client = ssl.create_default_context(cafile=str(certificate.chain))
    there, back = ssl.MemoryBIO(), ssl.MemoryBIO()
    one = client.wrap_bio(back, there, server_hostname=name)
    other = server.wrap_bio(there, back, server_side=True)
    ready: set[ssl.SSLObject] = set()
    while len(ready) < 2:
        for end in (one, other):
            try:
                end.do_handshake()
                ready.add(end)
            except ssl.SSLWantReadError:
                continue
    shown = one.getpeercert(binary_form=True)
    assert shown is not None
    return shown


@pytest.mark.parametrize("name", NAMES)
def test_a_browser_that_trusts_it_finds_it_right_for_each_name(tmp_path: Path, name: str) -> None:
    certificate = stored_certificate(tmp_path, NAMES, NOW)
    shown = shaken(certificate, name)
    digest = hashlib.sha256(shown).hexdigest().upper()
    assert certificate.fingerprint().replace(":", "") == digest
    assert certificate.fingerprint().count(":") == 31


def test_it_is_wrong_for_any_other_name(tmp_path: Path) -> None:
    certificate = stored_certificate(tmp_path, NAMES, NOW)
    with pytest.raises(ssl.SSLCertVerificationError, match="mismatch"):
        shaken(certificate, "192.0.2.8")


def test_it_stays_until_the_address_is_another_or_it_soon_ends(tmp_path: Path) -> None:
    first = stored_certificate(tmp_path, NAMES, NOW).fingerprint()
    assert stored_certificate(tmp_path, NAMES, NOW).fingerprint() == first
    assert stored_certificate(tmp_path, ("depot-pc", "new-name"), NOW).fingerprint() == first
    later = NOW + timedelta(days=360)
    assert stored_certificate(tmp_path, NAMES, later).fingerprint() == first
    soon = stored_certificate(tmp_path, NAMES, NOW + timedelta(days=370)).fingerprint()
    assert soon != first
    moved = stored_certificate(tmp_path, ("192.0.2.99", *NAMES), NOW + timedelta(days=370))
    assert moved.fingerprint() != soon


def test_one_of_a_computer_whose_clock_was_wrong_is_made_anew(tmp_path: Path) -> None:
    ahead = stored_certificate(tmp_path, NAMES, NOW + timedelta(days=3650)).fingerprint()
    assert stored_certificate(tmp_path, NAMES, NOW).fingerprint() != ahead


def test_it_is_as_browsers_ask(tmp_path: Path) -> None:
    """At most 398 days, P-256, for servers only, no authority (CA/Browser Forum, from memory)."""
    kept = stored_certificate(tmp_path, NAMES, NOW)
    certificate = x509.load_pem_x509_certificate(kept.chain.read_bytes())
    span = certificate.not_valid_after_utc - certificate.not_valid_before_utc
    assert timedelta(days=365) < span <= timedelta(days=398)
    assert certificate.not_valid_before_utc < NOW - timedelta(hours=23)
    key = certificate.public_key()
    assert isinstance(key, ec.EllipticCurvePublicKey)
    assert key.curve.name == "secp256r1"
    constraints = certificate.extensions.get_extension_for_class(x509.BasicConstraints)
    assert constraints.value.ca is False


@pytest.mark.skipif(os.name == "nt", reason="file modes are not Windows's")
def test_its_key_is_for_this_user_only(tmp_path: Path) -> None:
    kept = stored_certificate(tmp_path / "pairing", NAMES, NOW)
    assert stat.S_IMODE(kept.private_key.stat().st_mode) == 0o600
    assert stat.S_IMODE(kept.private_key.parent.stat().st_mode) == 0o700


@pytest.mark.parametrize("name", ["certificate.pem", "private-key.pem"])
@pytest.mark.parametrize("content", [b"", b"garbage", None])
def test_a_damaged_or_missing_one_is_made_anew(
    tmp_path: Path, name: str, content: bytes | None
) -> None:
    stored_certificate(tmp_path, NAMES, NOW)
    if content is None:
        (tmp_path / name).unlink()
    else:
        (tmp_path / name).write_bytes(content)
    shaken(stored_certificate(tmp_path, NAMES, NOW), "localhost")


def test_a_computer_may_be_called_anything(tmp_path: Path) -> None:
    odd = ("192.0.2.7", "a_b", "PC of the depot", "dépôt", "x" * 70)
    shaken(stored_certificate(tmp_path, odd, NOW), "192.0.2.7")


# one's own


def test_a_certificate_of_ones_own_is_taken(tmp_path: Path) -> None:
    made = stored_certificate(tmp_path, NAMES, NOW)
    assert load_certificate(made.chain, made.private_key) == made


def test_of_ones_own_it_is_told_why_phones_will_warn(tmp_path: Path) -> None:
    made = stored_certificate(tmp_path, NAMES, NOW)
    own = load_certificate(made.chain, made.private_key)
    assert own.warning("192.0.2.7", NOW) == ""
    assert "is not for 192.0.2.8" in own.warning("192.0.2.8", NOW)
    assert "is not good today" in own.warning("192.0.2.7", NOW + timedelta(days=500))
    assert "is not good today" in own.warning("192.0.2.7", NOW - timedelta(days=500))


def test_a_certificate_with_a_note_in_any_language_is_taken(tmp_path: Path) -> None:
    made = stored_certificate(tmp_path, NAMES, NOW)
    fingerprint = made.fingerprint()
    made.chain.write_bytes("# für die Werkstatt\n".encode() + made.chain.read_bytes())
    assert load_certificate(made.chain, made.private_key).fingerprint() == fingerprint


@pytest.mark.parametrize(
    ("certificate", "key", "said"),
    [
        ("none.pem", "key.pem", "there is no file"),
        ("good.pem", "none.pem", "there is no file"),
        ("good.pem", "", "there is no file"),
        ("garbage.pem", "key.pem", "no certificate and its key"),
        ("good.pem", "garbage.pem", "no certificate and its key"),
        ("good.pem", "other.pem", "no certificate and its key"),
        ("key.pem", "good.pem", "no certificate and its key"),
        ("good.pem", "locked.pem", "without a password"),
    ],
)
def test_files_that_are_none_end_in_one_sentence(
    tmp_path: Path, certificate: str, key: str, said: str
) -> None:
    good = stored_certificate(tmp_path / "one", NAMES, NOW)
    other = stored_certificate(tmp_path / "other", NAMES, NOW)
    (tmp_path / "good.pem").write_bytes(good.chain.read_bytes())
    (tmp_path / "key.pem").write_bytes(good.private_key.read_bytes())
    (tmp_path / "other.pem").write_bytes(other.private_key.read_bytes())
    (tmp_path / "garbage.pem").write_bytes(b"\x00garbage\xff")
    private = serialization.load_pem_private_key(good.private_key.read_bytes(), None)
    (tmp_path / "locked.pem").write_bytes(
        private.private_bytes(
            serialization.Encoding.PEM,
            serialization.PrivateFormat.PKCS8,
            serialization.BestAvailableEncryption(b"secret"),
        )
    )
    with pytest.raises(InputError, match=said) as told:
        load_certificate(tmp_path / certificate, tmp_path / key)
    assert str(told.value).count("\n") == 0
