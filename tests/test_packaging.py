"""What people install: a wheel that holds its checklists and assets and runs from anywhere."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
DATA = ("checklists", "assets")


def done(*command: object, cwd: Path, **environment: str) -> str:
    """Standard output of a command that must succeed."""
    run = subprocess.run(
        [sys.executable, *map(str, command)],
        cwd=cwd,
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout + run.stderr
    return run.stdout


def built(source: Path, kind: str, where: Path) -> Path:
    """Build a wheel or an sdist with the backend itself, which needs no network."""
    done("-m", "hatchling", "build", "-t", kind, "-d", where, cwd=source)
    (found,) = where.iterdir()
    return found


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built(ROOT, "wheel", tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the wheel installed into it."""
    target = tmp_path_factory.mktemp("installed")
    quiet = ("--no-deps", "--no-index", "--no-compile", "--disable-pip-version-check")
    done("-m", "pip", "install", *quiet, "--target", target, wheel, cwd=target)
    return target


def data_files() -> set[str]:
    """Every file that lies in the working copy's data folders."""
    return {
        path.relative_to(ROOT).as_posix()
        for folder in DATA
        for path in (ROOT / folder).rglob("*")
        if path.is_file()
    }


def test_the_wheel_holds_every_checklist_every_asset_and_no_test(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    assert {f"walkaround/{name}" for name in data_files()} <= names
    modules = {path.relative_to(ROOT).as_posix() for path in (ROOT / "walkaround").rglob("*.py")}
    assert {name for name in names if name.endswith(".py")} == modules
    assert not any(name.startswith("tests/") for name in names)


def test_installed_it_runs_from_anywhere_on_its_own_data(installed: Path, tmp_path: Path) -> None:
    vehicle = tmp_path / "own.toml"
    demo = ROOT / "checklists" / "vehicles" / "flood_semitrailer_12v.toml"
    vehicle.write_bytes(demo.read_bytes())
    run = ("-m", "walkaround", "steps", "own.toml", "--json")
    document = json.loads(done(*run, cwd=tmp_path, PYTHONPATH=str(installed)))
    assert (document["class"], document["rounds"]) == ("D", 1)
    assert {"chocks_on", "look_1_rear", "supply_hold"} <= {step["id"] for step in document["steps"]}
    where = "from walkaround.disk import locations as l; print(l.__file__, l.shipped(), l.assets())"
    told = done("-c", where, cwd=tmp_path, PYTHONPATH=str(installed))
    assert all(Path(place).is_relative_to(installed) for place in told.split())


def test_an_sdist_gives_the_same_wheel(wheel: Path, tmp_path: Path) -> None:
    for folder in ("sdist", "unpacked", "wheel"):
        (tmp_path / folder).mkdir()
    with tarfile.open(built(ROOT, "sdist", tmp_path / "sdist")) as archive:
        archive.extractall(tmp_path / "unpacked", filter="data")
    (source,) = (tmp_path / "unpacked").iterdir()
    again = built(source, "wheel", tmp_path / "wheel")
    assert set(zipfile.ZipFile(again).namelist()) == set(zipfile.ZipFile(wheel).namelist())
