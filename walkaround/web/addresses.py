"""Addresses of this machine: the port that is served, and where other devices reach it."""

from __future__ import annotations

import socket
from ipaddress import IPv4Address, ip_address

import ifaddr

from walkaround.base.errors import MachineError
from walkaround.base.message import message

HERE = "127.0.0.1"


def open_port(host: str, port: int) -> socket.socket:
    """Open the socket to serve on; port 0 takes any free one.

    Raises:
        MachineError: the port is taken, or the address does not belong to this machine.
    """
    listening = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((host, port))
        listening.listen(128)
    except OSError as error:
        listening.close()
        reason = str(error.strerror)
        raise MachineError(
            message("address-port-taken", port=str(port), host=host, reason=reason)
        ) from error
    except OverflowError:
        listening.close()
        raise MachineError(message("address-no-port", port=str(port))) from None
    return listening


def written(scheme: str, host: str, port: int) -> str:
    """Write an address as people open it: `http://[::1]:8765/`."""
    return f"{scheme}://{f'[{host}]' if ':' in host else host}:{port}/"


def reached_at(host: str) -> str:
    """Find the address at which other devices reach what is served on `host`.

    That is `host` itself unless it means every address of this machine. Then it is the one this
    machine sends from, else its first private IPv4 address.

    Raises:
        MachineError: this machine is in no network.
    """
    if not ip_address(host).is_unspecified:
        return host
    address = _sends_from() or next(iter(_private()), None)
    if address is None:
        raise MachineError(message("address-no-network"))
    return address


def names(host: str) -> tuple[str, ...]:
    """List the names and addresses that a certificate must be good for, `host` first."""
    own = socket.gethostname()
    local = [] if "." in own else [f"{own}.local"]
    every = [host, "localhost", HERE, "::1", own, *local, *_private()]
    return tuple(dict.fromkeys(name for name in every if name))


def _sends_from() -> str:
    """The address of the default route; to join a datagram socket to a far end sends nothing."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # TEST-NET-1 (RFC 5737): an address of nobody
        except OSError:
            return ""
        return str(probe.getsockname()[0])


def _private() -> list[str]:
    """The private IPv4 addresses of this machine, in the order of its adapters."""
    own = [ip.ip for adapter in ifaddr.get_adapters() for ip in adapter.ips if ip.is_IPv4]
    addresses = [IPv4Address(each) for each in own if isinstance(each, str)]
    return [str(a) for a in addresses if a.is_private and not (a.is_loopback or a.is_link_local)]
