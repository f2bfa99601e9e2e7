"""The link to a fleet's database; whatever is said of it, its password is not."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from urllib.parse import parse_qsl, quote, urlencode, urlsplit, urlunsplit

import psycopg
from psycopg import Connection
from psycopg.conninfo import conninfo_to_dict

from walkaround.base.errors import InputError, MachineError, Problem
from walkaround.base.message import message

_WAIT_S = 10


def connected(address: str) -> Connection:
    """Open a link.

    Raises:
        InputError: this is no address of a database.
        MachineError: nobody answers there, or not to us.
    """
    try:
        if not address.startswith(("postgresql://", "postgres://")):
            raise ValueError
        conninfo_to_dict(address)
    except (psycopg.Error, ValueError):
        # What libpq says of it may hold the password.
        what, mend = message("fleet-no-address"), message("fleet-write-an-address")
        raise InputError([Problem(message("argument"), "postgresql://", what, mend)]) from None
    with link_errors(address):
        return again(address)


def again(address: str) -> Connection:
    """Open a link once more; psycopg.OperationalError if nobody answers."""
    return psycopg.connect(address, autocommit=True, connect_timeout=_WAIT_S)


def without_password(address: str) -> str:
    """The address as it may be kept."""
    parts = urlsplit(address)
    user, _, host = parts.netloc.rpartition("@")
    netloc = f"{user.partition(':')[0]}@{host}" if user else host
    asked = [each for each in parse_qsl(parts.query) if each[0] not in ("password", "sslpassword")]
    return urlunsplit(parts._replace(netloc=netloc, query=urlencode(asked)))


@contextmanager
def link_errors(address: str) -> Iterator[None]:
    """Tell what goes wrong with the database in the block as a MachineError."""
    try:
        yield
    except psycopg.Error as error:
        why = " ".join(str(error).split())
        password = str(conninfo_to_dict(address).get("password") or "")
        for secret in (password, quote(password, safe="")):
            if secret:
                why = why.replace(secret, "***")
        # Not with what caused it, which a log would write out whole.
        raise MachineError(message("fleet-link-failed", why=why)) from None
