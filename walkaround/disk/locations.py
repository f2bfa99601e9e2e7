"""Every path that walkaround uses, each in one function."""

from __future__ import annotations

from pathlib import Path

from platformdirs import user_data_path

_PACKAGE = Path(__file__).resolve().parents[1]


def _beside_or_inside(name: str) -> Path:
    """Installed, the data lies inside the package; in a working copy, beside it."""
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def shipped() -> Path:
    """The checklists, connector table and demo vehicles that come with the app."""
    return _beside_or_inside("checklists")


def assets() -> Path:
    """Icons, sounds and the web manifest."""
    return _beside_or_inside("assets")


def data_dir(override: Path | None) -> Path:
    """The folder that holds everything the crew makes; `--data DIR` overrides it."""
    return override or user_data_path("walkaround", appauthor=False)


def walks(data: Path) -> Path:
    """One file per walk."""
    return data / "walks"


def walk_list(data: Path) -> Path:
    """What lists show of each walk, made anew from the walks at any time."""
    return data / "walk_list.sqlite3"


def unused_index(data: Path) -> Path:
    """Where an earlier version kept the same; whoever writes takes it away."""
    return data / "index"


def speech(data: Path) -> Path:
    """Rendered speech; may be deleted at any time."""
    return data / "speech"


def log_folder(data: Path) -> Path:
    """What happened, as text; may be deleted at any time."""
    return data / "log"


def own_checklists(data: Path) -> Path:
    """The crew's own checklists and, in its `vehicles` folder, vehicles that it wrote by hand."""
    return data / "checklists"


def own_vehicles(data: Path) -> Path:
    """The crew's own vehicles, made, edited and deleted in the app."""
    return data / "vehicles"


def settings(data: Path) -> Path:
    """The settings file."""
    return data / "settings.json"


def pairing(data: Path) -> Path:
    """The key that pairs devices and the certificate for https: secrets of this machine."""
    return data / "pairing"
