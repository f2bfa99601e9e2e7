"""The connection to a fleet's database; its password appears in no message."""

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


def connect(address: str) -> Connection:
    """Connect to the database at this address.

    Raises:
        InputError: this is no address of a database.
        MachineError: nobody answers there, or we are refused.
    """
    try:
        if not address.startswith(("postgresql://", "postgres://")):
            raise ValueError
        conninfo_to_dict(address)
    except (psycopg.Error, ValueError):
        # The message of libpq may contain the password.
        what, mend = message("fleet-no-address"), message("fleet-write-an-address")
        raise InputError([Problem(message("argument"), "postgresql://", what, mend)]) from None
    with connection_errors(address):
        return reconnect(address)


def reconnect(address: str) -> Connection:
    """Connect again.

    Raises:
        psycopg.OperationalError: nobody answers.
    """
    return psycopg.connect(address, autocommit=True, connect_timeout=_WAIT_S)


def without_password(address: str) -> str:
    """Return the address without its password, as it may be stored."""
    parts = urlsplit(address)
    user, _, host = parts.netloc.rpartition("@")
    netloc = f"{user.partition(':')[0]}@{host}" if user else host
    options = [
        each for each in parse_qsl(parts.query) if each[0] not in ("password", "sslpassword")
    ]
    return urlunsplit(parts._replace(netloc=netloc, query=urlencode(options)))


@contextmanager
def connection_errors(address: str) -> Iterator[None]:
    """Turn database errors in the block into a MachineError without the password."""
    try:
        yield
    except psycopg.Error as error:
        why = " ".join(str(error).split())
        password = str(conninfo_to_dict(address).get("password") or "")
        for secret in (password, quote(password, safe="")):
            if secret:
                why = why.replace(secret, "***")
        # Without its cause, which a log would write out whole.
        raise MachineError(message("fleet-link-failed", why=why)) from None
