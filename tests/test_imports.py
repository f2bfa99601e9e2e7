"""The core cannot reach the shell: what each module may import, read from its source.

The core decides; it imports nothing that does I/O, knows no clock and opens no file. The shell
reads, writes, listens and shows; each library that touches the world has one module that may.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

import walkaround

PACKAGE = Path(walkaround.__file__).parent


def named(text: str) -> frozenset[str]:
    return frozenset(text.split())


CORE = named("""
    admission airhold allowed answers antichain atmosphere bulbs cabwords chambers checking
    checklist choosing clock clocknotes conditions cover errors events exchange feeds garage
    gauges guesses holdchart holdlog holdproblems holds holdwords indexfile lampitems lamps
    lampsteps layout leakfit leaksize limits lines linings loadcheck measurechecks measures
    measurewords notcovered overview pads pinface plaintext planframe planning planpicture
    planview planwords power powerchecks prompts refusals rounds roundwords saying
    securityheaders settings settling showing shownunits state steps strokes switching
    tablechecks timing units validating vehicle vehiclechecks vehiclefields vehiclewords vin
    walk walkfile walking wiring wiringchecks wiringlist written writtensteps
""")
"""Modules that decide. A new module goes here unless it must touch the world."""

SHELL = named("""
    __init__ __main__ addresses bootstrap brakes certificate cli connections desk files gate
    keyfile listing loading locations logfile monthfolders onewriter pairing qrpicture
    reader receiving server shelf soundfolder speech speech_process speech_worker
    standardtables store systemclock tomlfile vehiclefile walklist
""")
"""Modules that read, write, wait, listen or start something, besides those of ui/."""

CORE_MAY_IMPORT = named("""
    __future__ collections contextlib csv dataclasses datetime difflib functools gc hashlib heapq
    hmac io ipaddress itertools json math operator re types typing unicodedata urllib zlib
    numpy pydantic pydantic_core
""")
ONLY_IN = {
    "num2words": {"saying"},
    "tinydb": {"store"},
    "filelock": {"onewriter"},
    "pyttsx3": {"speech_worker"},
    "espeakng_loader": {"speech_worker"},
    "platformdirs": {"locations"},
    "tomllib": {"tomlfile"},
    "tomli_w": {"vehiclefile"},
    "subprocess": {"speech_process"},
    "socket": {"addresses", "server"},
    "ssl": {"certificate"},
    "cryptography": {"certificate"},
    "ifaddr": {"addresses"},
    "segno": {"qrpicture"},
    "fastapi": {"server", "ui.pages"},
    "uvicorn": {"connections", "server"},
    "webbrowser": {"server"},
    "argparse": {"cli"},
}
"""Libraries that one module alone may import, or these few."""

UI_IS_FOR = {"server"}
"""Modules outside ui/ that may import it."""


@cache
def tree(module: str) -> ast.Module:
    path = PACKAGE / f"{module.replace('.', '/')}.py"
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


@cache
def modules() -> tuple[str, ...]:
    """Every module of the package, those of ui/ as `ui.name`."""
    paths = [path.relative_to(PACKAGE).with_suffix("") for path in PACKAGE.rglob("*.py")]
    return tuple(sorted(".".join(path.parts) for path in paths))


@cache
def imported(module: str) -> frozenset[str]:
    """Everything it imports anywhere, with full names; our own modules as `walkaround.x`."""
    found = set()
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}: import by full name"
            assert node.module is not None
            own = node.module in ("walkaround", "walkaround.ui")
            found |= (
                {f"{node.module}.{alias.name}" for alias in node.names} if own else {node.module}
            )
    return frozenset(found)


def foreign(module: str) -> set[str]:
    return {name.split(".")[0] for name in imported(module)} - {"walkaround"}


def own(module: str) -> set[str]:
    ours = [name for name in imported(module) if name.split(".")[0] == "walkaround"]
    return {name.removeprefix("walkaround.") for name in ours}


def is_ui(module: str) -> bool:
    return module.split(".")[0] == "ui"


def test_every_module_is_core_or_shell_or_screen() -> None:
    assert {module for module in modules() if not is_ui(module)} == CORE | SHELL
    assert not CORE & SHELL


@pytest.mark.parametrize("module", sorted(CORE))
def test_the_core_imports_what_does_nothing_but_compute(module: str) -> None:
    allowed = CORE_MAY_IMPORT | ({"num2words"} if module == "saying" else set())
    assert foreign(module) <= allowed


@pytest.mark.parametrize("module", sorted(CORE))
def test_the_core_imports_only_the_core(module: str) -> None:
    assert own(module) <= CORE


@pytest.mark.parametrize("module", sorted(CORE))
def test_the_core_opens_no_file_and_asks_no_clock(module: str) -> None:
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.Call):
            called = ast.unparse(node.func)
            assert called not in ("open", "print", "input", "exec", "eval"), called
            assert called.split(".")[-1] not in ("now", "utcnow", "today", "monotonic"), called


@pytest.mark.parametrize("library", ONLY_IN)
def test_a_library_that_touches_the_world_is_imported_where_it_says(library: str) -> None:
    assert {module for module in modules() if library in foreign(module)} == ONLY_IN[library]


def test_flet_is_for_the_screens_alone() -> None:
    with_flet = {m for m in modules() if foreign(m) & {"flet", "flet_audio", "flet_web"}}
    assert all(map(is_ui, with_flet))
    assert {m for m in modules() if "flet_web" in foreign(m)} == {"ui.pages"}
    assert {m for m in modules() if "flet_audio" in foreign(m)} == {"ui.sound"}


def test_only_the_server_knows_the_screens() -> None:
    knowing = {m for m in modules() if not is_ui(m) and any(map(is_ui, own(m)))}
    assert knowing == UI_IS_FOR


def test_screens_decide_nothing_and_save_nothing_themselves() -> None:
    """They show the state and send answers through the desk; the store is the desk's."""
    for module in modules():
        if is_ui(module):
            assert not own(module) & {"store", "reader", "files", "walkfile", "server", "cli"}
            assert not foreign(module) & {"os", "shutil", "time", "threading"}


def test_screens_make_no_path_and_open_no_file() -> None:
    """One may name the type of a path that it is given; `Path(...)`, `Path.home()` make one."""
    for module in filter(is_ui, modules()):
        for node in ast.walk(tree(module)):
            if isinstance(node, ast.Call):
                called = ast.unparse(node.func).split(".")
                assert called[0] not in ("Path", "pathlib", "open"), module
                assert called[-1] not in ("read_text", "read_bytes", "write_text", "write_bytes")


def test_nothing_imports_in_a_circle() -> None:
    TopologicalSorter({module: own(module) & set(modules()) for module in modules()}).prepare()


def test_the_core_runs_where_no_shell_library_can_be_imported() -> None:
    code = (
        "import importlib, sys\n"
        "for name in sys.argv[1].split(','):\n    sys.modules[name] = None\n"
        "for name in sys.argv[2].split(','):\n    importlib.import_module('walkaround.' + name)\n"
    )
    barred = set(ONLY_IN) - {"num2words"} - sys.stdlib_module_names
    run = [sys.executable, "-c", code, ",".join(barred | {"flet", "starlette"}), ",".join(CORE)]
    done = subprocess.run(run, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
