"""Addresses of this machine: the socket to serve on, and where other devices reach it."""

from __future__ import annotations

import socket
from ipaddress import IPv4Address, ip_address

import ifaddr

from walkaround.base.errors import MachineError
from walkaround.base.message import message

HERE = "127.0.0.1"


def open_port(host: str, port: int) -> socket.socket:
    """Open the socket to serve on; port 0 means any free one.

    Raises:
        MachineError: the port is taken, or the address does not belong to this machine.
    """
    server_socket = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET)
    server_socket.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        server_socket.bind((host, port))
        server_socket.listen(128)
    except OSError as error:
        server_socket.close()
        reason = str(error.strerror)
        raise MachineError(
            message("address-port-taken", port=str(port), host=host, reason=reason)
        ) from error
    except OverflowError:
        server_socket.close()
        raise MachineError(message("address-no-port", port=str(port))) from None
    return server_socket


def url(scheme: str, host: str, port: int) -> str:
    """Return an address as people open it: `http://[::1]:8765/`."""
    return f"{scheme}://{f'[{host}]' if ':' in host else host}:{port}/"


def reachable_address(host: str) -> str:
    """Return the address at which other devices reach a server on `host`.

    That is `host` itself unless it means every address of this machine. Then it is the address of
    the default route, else the first private IPv4 address.

    Raises:
        MachineError: this machine is in no network.
    """
    if not ip_address(host).is_unspecified:
        return host
    address = _default_address() or next(iter(_private_addresses()), None)
    if address is None:
        raise MachineError(message("address-no-network"))
    return address


def host_names(host: str) -> tuple[str, ...]:
    """List the names and addresses that a certificate must be valid for, `host` first."""
    host_name = socket.gethostname()
    local_names = [] if "." in host_name else [f"{host_name}.local"]
    all_names = [host, "localhost", HERE, "::1", host_name, *local_names, *_private_addresses()]
    return tuple(dict.fromkeys(name for name in all_names if name))


def _default_address() -> str:
    """Return the address of the default route; connecting a datagram socket sends nothing."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # TEST-NET-1 (RFC 5737): an address of nobody
        except OSError:
            return ""
        return str(probe.getsockname()[0])


def _private_addresses() -> list[str]:
    """List the private IPv4 addresses of this machine, in the order of its adapters."""
    texts = [ip.ip for adapter in ifaddr.get_adapters() for ip in adapter.ips if ip.is_IPv4]
    addresses = [IPv4Address(each) for each in texts if isinstance(each, str)]
    return [str(a) for a in addresses if a.is_private and not (a.is_loopback or a.is_link_local)]
