"""The certificate for https: a self-signed one that is made and stored, or the shop's own."""

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

VALIDITY = timedelta(days=397)
"""Browsers accept no certificate that is valid for longer than 398 days (CA/Browser Forum, Baseline
Requirements 6.3.2, from memory)."""
_BACKDATED = timedelta(days=1)
"""How long before now a new certificate becomes valid: a phone's clock may be behind."""
_RENEW_BEFORE = timedelta(days=30)
"""A certificate that expires sooner than this is replaced at the next start."""


@dataclass(frozen=True, slots=True)
class Certificate:
    """The files that https is served with.

    Attributes:
        chain: the path of a PEM file of the certificate and its issuers' certificates.
        private_key: the path of a PEM file of its key.
    """

    chain: Path
    private_key: Path

    def fingerprint(self) -> str:
        """Return the SHA-256 digest of the certificate as browsers show it: `AB:CD:...`."""
        der = self._leaf().public_bytes(serialization.Encoding.DER)
        return hashlib.sha256(der).digest().hex(":").upper()

    def warning(self, name: str, now: datetime) -> str:
        """Say in a sentence why phones that trust it will still warn of it; empty if they will not.

        Args:
            name: the name or address that they open.
            now: the present time.
        """
        leaf = self._leaf()
        if not leaf.not_valid_before_utc <= now < leaf.not_valid_after_utc:
            ends = f"{leaf.not_valid_after_utc:%Y-%m-%d}"
            return f"{self.chain} is not good today (it ends {ends}); phones will warn of it."
        if _name(name) not in _names(leaf):
            return f"{self.chain} is not for {name}, which phones open; they will warn of it."
        return ""

    def _leaf(self) -> x509.Certificate:
        return x509.load_pem_x509_certificates(self.chain.read_bytes())[0]


def stored_certificate(folder: Path, names: tuple[str, ...], now: datetime) -> Certificate:
    """Return the certificate stored in this folder; make a new one if it is not usable.

    A phone accepts a certificate once, so it stays until the address changes or it expires soon.

    Args:
        folder: the folder of the certificate and its key.
        names: the names and addresses that it must be valid for, first the one that people open.
        now: the present time.

    Raises:
        MachineError: the certificate cannot be read or written.
    """
    files = Certificate(folder / "certificate.pem", folder / "private-key.pem")
    if not _is_usable(files, names[0], now):
        key = ec.generate_private_key(ec.SECP256R1())
        certificate = _self_signed(key, names, now)
        write_secret(files.private_key, _pem(key))
        write_secret(files.chain, certificate.public_bytes(serialization.Encoding.PEM))
    return files


def load_certificate(chain: Path, private_key: Path) -> Certificate:
    """Return a certificate of the shop's own.

    Args:
        chain: the path of the PEM file of the certificate.
        private_key: the path of the PEM file of its key.

    Raises:
        InputError: the files cannot be read, are no certificate and key, or do not match.
    """
    certificate = Certificate(chain, private_key)
    for flag, path in (("--certificate", chain), ("--private-key", private_key)):
        if not path.is_file():
            what = message("trouble-no-file", path=str(path))
            raise _input_error(flag, what, message("file-mend-no-such-file"))
    try:
        _check_loads(certificate)
        certificate.fingerprint()
    except PermissionError as error:
        what = message("trouble-certificate-unreadable", chain=str(chain), key=str(private_key))
        raise _input_error("--certificate", what, message("problem-make-them-readable")) from error
    except (OSError, ValueError) as error:
        what = message("trouble-no-certificate", chain=str(chain), key=str(private_key))
        raise _input_error("--certificate", what, message("problem-give-two-pem-files")) from error
    return certificate


def _input_error(flag: str, what: Message, mend: Message) -> InputError:
    return InputError([Problem(message("argument"), flag, what, mend)])


def _check_loads(certificate: Certificate) -> None:
    """Load both as the server will, with an empty password, or OpenSSL would ask for one."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(certificate.chain, certificate.private_key, password=lambda: "")


def _is_usable(files: Certificate, name: str, now: datetime) -> bool:
    content = read_file(files.chain)
    if content is None or read_file(files.private_key) is None:
        return False
    try:
        _check_loads(files)
        certificate = x509.load_pem_x509_certificate(content)
        names = _names(certificate)
    except (OSError, ValueError):
        return False
    in_time = (
        certificate.not_valid_before_utc <= now < certificate.not_valid_after_utc - _RENEW_BEFORE
    )
    return in_time and _name(name) in names


def _names(certificate: x509.Certificate) -> tuple[x509.GeneralName, ...]:
    """Return the names and addresses that a certificate is valid for."""
    try:
        return tuple(
            certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
        )
    except x509.ExtensionNotFound:
        return ()


def _self_signed(
    key: ec.EllipticCurvePrivateKey, names: tuple[str, ...], now: datetime
) -> x509.Certificate:
    """Make a self-signed certificate."""
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "walkaround")])
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
    # A computer may have any name; a certificate takes only ASCII names (RFC 5280, 4.2.1.6).
    alternatives = [_name(each) for each in names if each.isascii()]
    valid_from = (now - _BACKDATED).replace(microsecond=0)
    builder = (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(valid_from)
        .not_valid_after(valid_from + VALIDITY)
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
