"""Every path that walkaround uses, each in one function."""

from __future__ import annotations

from pathlib import Path

from platformdirs import user_data_path

_PACKAGE = Path(__file__).resolve().parents[1]


def _beside_or_inside(name: str) -> Path:
    """Return a folder inside the package, if installed, or beside it in a working copy."""
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def shipped() -> Path:
    """Return the folder of checklists, connector table and demo vehicles that come with the app."""
    return _beside_or_inside("checklists")


def assets() -> Path:
    """Return the folder of icons, sounds and the web manifest."""
    return _beside_or_inside("assets")


def data_dir(override: Path | None) -> Path:
    """Return the folder that holds everything the crew makes; `--data DIR` overrides it."""
    return override or user_data_path("walkaround", appauthor=False)


def walks(data: Path) -> Path:
    """Return the folder of the walks, one file each."""
    return data / "walks"


def practice(data: Path) -> Path:
    """Return the folder of walks that are practice; no list and no record file looks in there."""
    return data / "practice"


def walk_list(data: Path) -> Path:
    """Return the cache of the list of walks; it may be deleted at any time."""
    return data / "walk_list.sqlite3"


def unused_index(data: Path) -> Path:
    """Return the folder of an earlier version's cache; a writing process deletes it."""
    return data / "index"


def speech(data: Path) -> Path:
    """Return the folder of rendered speech; it may be deleted at any time."""
    return data / "speech"


def log_folder(data: Path) -> Path:
    """Return the folder of the log; it may be deleted at any time."""
    return data / "log"


def own_checklists(data: Path) -> Path:
    """Return the folder of own checklists; its folder `vehicles` has vehicles written by hand."""
    return data / "checklists"


def own_vehicles(data: Path) -> Path:
    """Return the folder of the crew's own vehicles, made, edited and deleted in the app."""
    return data / "vehicles"


def settings(data: Path) -> Path:
    """Return the settings file."""
    return data / "settings.json"


def contact_checks(data: Path) -> Path:
    """Return the file of what was found at cables and sockets."""
    return data / "cables_and_sockets.json"


def half_typed(data: Path) -> Path:
    """Return the file of what is being typed on pages; it may be deleted at any time."""
    return data / "half_typed.json"


def double_checks(data: Path) -> Path:
    """Return the file of who signed for which double checks."""
    return data / "double_checks.json"


def sharing(data: Path) -> Path:
    """Return the folder of this shop's signing key, and of the known keys of other shops."""
    return data / "sharing"


def pairing(data: Path) -> Path:
    """Return the folder of this machine's secrets: the pairing key, the certificate for https."""
    return data / "pairing"
