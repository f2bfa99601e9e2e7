"""The command that serves the app: where, to whom, and with which certificate."""

from __future__ import annotations

import argparse
import logging
from ipaddress import ip_address

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import message
from walkaround.bootstrap import build
from walkaround.disk import locations
from walkaround.disk.log import start_log
from walkaround.web.addresses import HERE, host_names, open_port, reachable_address, url

log = logging.getLogger(__name__)


def serve(options: argparse.Namespace) -> int:
    """Serve the app until it is stopped, as the command line's options say.

    Raises:
        InputError: options that do not fit together.
        MachineError: the port is taken, or the data folder cannot be used.
    """
    # Flet and the web server take a second to import; the other commands do without.
    from walkaround.access.certificate import load_certificate, stored_certificate
    from walkaround.web import server

    host = _host(options)
    _fit_together(options)
    outside = reachable_address(host)
    certificate = None
    if options.certificate:
        certificate = load_certificate(options.certificate, options.private_key)
    with open_port(host, options.port) as listening:
        port = listening.getsockname()[1]
        address = url("https" if options.https else "http", outside, port)
        data = locations.data_dir(options.data)
        parts = build(
            data,
            words=options.words,
            open_at=address if options.lan else None,
            new_key=options.new_key,
            opened=lambda: start_log(data, verbose=options.verbose),
        )
        try:
            if options.https and certificate is None:
                folder = locations.pairing(data)
                certificate = stored_certificate(folder, host_names(outside), parts.clock().utc)
            elif certificate and (doubt := certificate.warning(outside, parts.clock().utc)):
                log.warning(doubt)
            browser = not options.no_browser
            server.serve(parts, listening, open_browser=browser, certificate=certificate)
        finally:
            parts.close()
    return 0


def _host(options: argparse.Namespace) -> str:
    """The address to serve on; of a network only if that was asked for."""
    host: str | None = options.host
    if host is None:
        return "0.0.0.0" if options.lan else HERE
    if host == "localhost":
        return HERE
    try:
        address = ip_address(host)
    except ValueError:
        what = message("problem-no-address", host=repr(host))
        mend = message("problem-give-an-address")
    else:
        if options.lan or address.is_loopback:
            return host
        what = message("problem-opens-every-record", host=host)
        mend = message("problem-say-lan-too")
    raise InputError([Problem(message("argument"), "--host", what, mend)])


def _fit_together(options: argparse.Namespace) -> None:
    """Refuse flags that mean nothing without another."""
    needs = [
        ("--new-key", options.new_key, "--lan", options.lan),
        ("--certificate", options.certificate, "--https", options.https),
        ("--certificate", options.certificate, "--private-key", options.private_key),
        ("--private-key", options.private_key, "--certificate", options.certificate),
    ]
    for flag, said, other, other_said in needs:
        if said and not other_said:
            what = message("problem-flag-needs", other=other)
            mend = message("problem-give-flag-too", other=other)
            raise InputError([Problem(message("argument"), flag, what, mend)])
