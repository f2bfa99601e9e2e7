"""The certificate for https: one made on the spot and kept, or one of the shop's own."""

from __future__ import annotations

import hashlib
import ssl
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import ip_address
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Message, message
from walkaround.disk.durable import read_file
from walkaround.disk.secrets import write_secret

LASTS = timedelta(days=397)
"""Browsers take no certificate that is good for longer than 398 days (CA/Browser Forum, Baseline
Requirements 6.3.2, from memory)."""
_ALREADY = timedelta(days=1)
"""A new certificate is good from this long ago on: a phone's clock may be behind."""
_ANEW = timedelta(days=30)
"""A certificate that ends sooner than this is made anew at the next start."""


@dataclass(frozen=True, slots=True)
class Certificate:
    """What https is served with.

    Attributes:
        chain: PEM file of the certificate, and of those that vouch for it.
        private_key: PEM file of its key.
    """

    chain: Path
    private_key: Path

    def fingerprint(self) -> str:
        """SHA-256 of the certificate as browsers show it: hex pairs with colons between."""
        der = self._first().public_bytes(serialization.Encoding.DER)
        return hashlib.sha256(der).digest().hex(":").upper()

    def doubt(self, name: str, now: datetime) -> str:
        """Say in a sentence why phones that trust it will still warn of it; empty if they will not.

        Args:
            name: the name or address that they open.
            now: the wall clock.
        """
        first = self._first()
        if not first.not_valid_before_utc <= now < first.not_valid_after_utc:
            ends = f"{first.not_valid_after_utc:%Y-%m-%d}"
            return f"{self.chain} is not good today (it ends {ends}); phones will warn of it."
        if _name(name) not in _names(first):
            return f"{self.chain} is not for {name}, which phones open; they will warn of it."
        return ""

    def _first(self) -> x509.Certificate:
        return x509.load_pem_x509_certificates(self.chain.read_bytes())[0]


def kept_certificate(folder: Path, names: tuple[str, ...], now: datetime) -> Certificate:
    """Take the certificate kept in this folder; make a new one if it does not fit the first name.

    A phone accepts a certificate once, so it stays until the address is another or it soon ends.

    Args:
        folder: where it is kept, with its key.
        names: names and addresses that it must be good for, the one that people open first.
        now: the wall clock.

    Raises:
        MachineError: it cannot be read or written.
    """
    files = Certificate(folder / "certificate.pem", folder / "private-key.pem")
    if not _good(files, names[0], now):
        key = ec.generate_private_key(ec.SECP256R1())
        made = _signed(key, names, now)
        write_secret(files.private_key, _pem(key))
        write_secret(files.chain, made.public_bytes(serialization.Encoding.PEM))
    return files


def own_certificate(chain: Path, private_key: Path) -> Certificate:
    """Take a certificate from elsewhere.

    Raises:
        InputError: the files cannot be read, are no certificate and key, or do not go together.
    """
    certificate = Certificate(chain, private_key)
    for flag, path in (("--certificate", chain), ("--private-key", private_key)):
        if not path.is_file():
            what = message("trouble-no-file", path=str(path))
            raise _bad(flag, what, message("file-mend-no-such-file"))
    try:
        _load(certificate)
        certificate.fingerprint()
    except PermissionError as error:
        what = message("trouble-certificate-unreadable", chain=str(chain), key=str(private_key))
        raise _bad("--certificate", what, message("problem-make-them-readable")) from error
    except (OSError, ValueError) as error:
        what = message("trouble-no-certificate", chain=str(chain), key=str(private_key))
        raise _bad("--certificate", what, message("problem-give-two-pem-files")) from error
    return certificate


def _bad(flag: str, what: Message, mend: Message) -> InputError:
    return InputError([Problem(message("argument"), flag, what, mend)])


def _load(certificate: Certificate) -> None:
    """Take both up as the server will; without a password, for which it would ask and wait."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(certificate.chain, certificate.private_key, password=lambda: "")


def _good(files: Certificate, name: str, now: datetime) -> bool:
    content = read_file(files.chain)
    if content is None or read_file(files.private_key) is None:
        return False
    try:
        _load(files)
        certificate = x509.load_pem_x509_certificate(content)
        names = _names(certificate)
    except (OSError, ValueError):
        return False
    in_time = certificate.not_valid_before_utc <= now < certificate.not_valid_after_utc - _ANEW
    return in_time and _name(name) in names


def _names(certificate: x509.Certificate) -> tuple[x509.GeneralName, ...]:
    """The names and addresses that it is good for."""
    try:
        return tuple(
            certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
        )
    except x509.ExtensionNotFound:
        return ()


def _signed(
    key: ec.EllipticCurvePrivateKey, names: tuple[str, ...], now: datetime
) -> x509.Certificate:
    """A certificate that vouches for itself."""
    who = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "walkaround")])
    usage = x509.KeyUsage(
        digital_signature=True,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=False,
        crl_sign=False,
        encipher_only=False,
        decipher_only=False,
    )
    # A computer may be called anything; a certificate names in ASCII alone (RFC 5280, 4.2.1.6).
    alternatives = [_name(each) for each in names if each.isascii()]
    from_on = (now - _ALREADY).replace(microsecond=0)
    builder = (
        x509.CertificateBuilder()
        .subject_name(who)
        .issuer_name(who)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(from_on)
        .not_valid_after(from_on + LASTS)
        .add_extension(x509.SubjectAlternativeName(alternatives), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(usage, critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
    )
    return builder.sign(key, hashes.SHA256())


def _name(text: str) -> x509.GeneralName:
    try:
        return x509.IPAddress(ip_address(text))
    except ValueError:
        return x509.DNSName(text)


def _pem(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
