"""Where other devices reach this machine."""

from __future__ import annotations

import socket

import ifaddr
import pytest

from walkaround.base.errors import MachineError
from walkaround.web import addresses
from walkaround.web.addresses import host_names, open_port, reachable_address, url


@pytest.mark.parametrize(
    ("host", "text"), [("192.0.2.7", "http://192.0.2.7:8765/"), ("::1", "http://[::1]:8765/")]
)
def test_an_address_is_written_as_people_open_it(host: str, text: str) -> None:
    assert url("http", host, 8765) == text


def test_an_address_that_was_named_is_the_one_others_reach() -> None:
    assert reachable_address("192.0.2.7") == "192.0.2.7"
    assert reachable_address("127.0.0.1") == "127.0.0.1"


@pytest.mark.parametrize("host", ["0.0.0.0", "::"])
def test_of_all_addresses_it_is_one_of_this_machines_own(host: str) -> None:
    own = {ip.ip for adapter in ifaddr.get_adapters() for ip in adapter.ips}
    try:
        found = reachable_address(host)
    except MachineError:
        pytest.skip("this machine is in no network")
    assert found in own


def test_without_a_default_route_it_is_the_first_private_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def adapters() -> list[ifaddr.Adapter]:
        found = ["127.0.0.1", "169.254.1.1", "8.8.8.8", "192.168.7.7", "10.0.0.1"]
        return [ifaddr.Adapter("x", "x", [ifaddr.IP(each, 24, "x") for each in found])]

    monkeypatch.setattr(addresses, "_default_address", lambda: "")
    monkeypatch.setattr(ifaddr, "get_adapters", adapters)
    assert reachable_address("0.0.0.0") == "192.168.7.7"
    assert {"192.168.7.7", "10.0.0.1"} <= set(host_names("192.0.2.7"))
    assert not {"169.254.1.1", "8.8.8.8"} & set(host_names("192.0.2.7"))


def test_without_a_network_that_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(addresses, "_default_address", lambda: "")
    monkeypatch.setattr(ifaddr, "get_adapters", list)
    with pytest.raises(MachineError, match="in no network"):
        reachable_address("0.0.0.0")


def test_a_certificate_names_what_people_open_first_and_nothing_twice() -> None:
    found = host_names("127.0.0.1")
    assert found[0] == "127.0.0.1"
    assert len(set(found)) == len(found)
    assert {"localhost", "::1", socket.gethostname()} <= set(found)


def test_any_free_port_is_taken_if_none_is_named() -> None:
    with open_port("127.0.0.1", 0) as one, open_port("127.0.0.1", 0) as other:
        assert 0 < one.getsockname()[1] != other.getsockname()[1]
