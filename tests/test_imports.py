"""Packages import one way, and the core cannot reach the shell: read from the source by ast.

The core decides; it imports nothing that does I/O, knows no clock and opens no file. The shell
reads, writes, listens and shows; each library that touches the world is imported where it says.
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
MOST_MODULES = 12
"""In one folder, beside its `__init__`."""


def named(text: str) -> frozenset[str]:
    return frozenset(text.split())


IMPORTS: dict[str, frozenset[str]] = {
    "base": named(""),
    "disk": named("base"),
    "vehicle": named("base"),
    "voice": named("base"),
    "access": named("base disk"),
    "rules": named("base vehicle"),
    "brakes": named("base vehicle"),
    "lamps": named("base vehicle rules"),
    "diagnosis": named("base"),
    "causes": named("base vehicle lamps diagnosis"),
    "contacts": named("base lamps"),
    "leaks": named("base vehicle rules diagnosis"),
    "airhold": named("base rules"),
    "rounds": named("base lamps"),
    "plan": named("base vehicle rules brakes lamps airhold rounds"),
    "walk": named("base vehicle rules brakes causes leaks airhold plan"),
    "repairs": named("base diagnosis causes plan walk"),
    "comparison": named("base rules airhold plan walk"),
    "key_answers": named("base plan walk"),
    "spoken_answers": named("plan key_answers walk"),
    "recognition": named("spoken_answers"),
    "drawing": named("base vehicle rules lamps airhold plan"),
    "vehicle_editor": named("base vehicle rules brakes lamps"),
    "settings": named("base vehicle rules airhold"),
    "practice": named("base vehicle rules brakes causes leaks drawing plan walk"),
    "library": named("""
        base disk vehicle rules brakes lamps diagnosis causes leaks rounds plan walk vehicle_editor
    """),
    "words": named("base vehicle rules airhold plan walk"),
    "report": named(
        "base vehicle rules brakes airhold diagnosis plan walk comparison drawing words"
    ),
    "records": named("base disk plan walk comparison report words"),
    "exchange": named("base disk records walk"),
    "board": named("base rules walk records report words"),
    "fleet": named("base disk exchange library records report walk words"),
    "timing": named(""),
    "bootstrap": named("""
        base disk recognition access board comparison exchange library records settings timing
        voice walk words
    """),
    "ui": named("""
        base disk vehicle voice rules brakes lamps diagnosis causes contacts leaks airhold plan walk
        repairs comparison key_answers spoken_answers recognition drawing vehicle_editor
        practice settings exchange library words report records board bootstrap
    """),
    "web": named("""
        base disk recognition vehicle voice diagnosis plan access drawing library records report
        board bootstrap words ui
    """),
    "cli": named("""
        base disk vehicle rules lamps diagnosis airhold plan walk exchange library records report
        bootstrap words cli_options cli_output cli_serve cli_causes cli_walks cli_exchange
        cli_fleet
    """),
    "cli_causes": named("base diagnosis words"),
    "cli_walks": named("base records words"),
    "cli_options": named("base disk words"),
    "cli_exchange": named("base bootstrap cli_options disk exchange records words"),
    "cli_fleet": named("base bootstrap cli_exchange cli_options disk fleet records words"),
    "cli_serve": named("base disk access bootstrap web"),
    "cli_output": named("base vehicle rules lamps airhold plan library words"),
}
"""What each package, or module beside them, may import of the others."""

UI_IMPORTS: dict[str, frozenset[str]] = {
    "kit": named(""),
    "practice_vehicles": named(""),
    "page_location": named("practice_vehicles"),
    "page": named("kit page_location"),
    "step_prompt": named("page"),
    "pictures": named("kit"),
    "taps": named("kit page step_prompt"),
    "airhold": named("kit page pictures practice taps"),
    "step_content": named("kit page step_prompt pictures airhold practice taps"),
    "step": named("step_content kit page step_prompt pictures practice taps airhold"),
    "note": named("kit page pictures taps"),
    "vehicle": named("kit page pictures"),
    "contacts": named("kit page pictures"),
    "practice": named("kit page practice_vehicles taps vehicle page_location"),
    "double_check": named("kit page"),
    "home": named("kit page vehicle"),
    "board": named("kit page"),
    "walk": named("kit page pictures taps vehicle home double_check"),
    "app": named("""
        step_content kit page practice taps airhold step note vehicle contacts home board walk
        double_check
    """),
}
"""The same among the folders of screens."""

CORE = named("""
    base vehicle rules brakes lamps diagnosis causes contacts leaks airhold rounds plan walk repairs
    comparison key_answers spoken_answers drawing vehicle_editor practice words settings
""")
"""Packages that decide. What they import does nothing but compute."""

PURE = named("""
    access.admission board.history board.page board.retention board.rows board.search
    board.trend recognition.utterance library.validate records.walk_file records.walk_line
    report.checked_items report.contents report.facts report.findings report.html
    report.json_document report.measurements report.page report.tables report.walk_texts
""")
"""Modules of other packages that compute only, held to the same."""

PURE_LIBRARIES = named("""
    __future__ base64 calendar collections contextlib csv dataclasses datetime difflib fractions
    functools gc hashlib heapq hmac html io ipaddress itertools json math
    operator re types typing unicodedata urllib xml
    babel fluent num2words numpy orjson pydantic pydantic_core
""")

ONLY_IN: dict[str, frozenset[str]] = {
    "babel": named("words"),
    "fluent": named("words"),
    "num2words": named("words"),
    "tinydb": named("records.store records.database"),
    "sqlite3": named("records.walk_cache"),
    "filelock": named("disk.writer_lock"),
    "pyttsx3": named("voice.worker"),
    "espeakng_loader": named("voice.worker"),
    "platformdirs": named("disk.locations"),
    "tomllib": named("library.toml_file"),
    "tomli_w": named("vehicle.to_toml"),
    "subprocess": named("voice.process recognition.process exchange.processes"),
    "onnxruntime": named("recognition.scorer recognition.voice_detector"),
    "socket": named("web.addresses web.server"),
    "ssl": named("access.certificate"),
    "cryptography": named("access.certificate exchange.shop_key"),
    "zipfile": named("exchange.record_file_reader exchange.record_file"),
    "ifaddr": named("web.addresses"),
    "segno": named("access.pairing"),
    "fastapi": named("web ui.page.flet_pages"),
    "starlette": named("access web"),
    "uvicorn": named("web"),
    "webbrowser": named("web.server"),
    "argparse": named("cli cli_options cli_exchange cli_fleet cli_serve"),
    "psycopg": named("fleet cli_fleet"),
    "ctypes": named("disk.batch_write voice.worker"),
    "fpdf": named("report.pdf report.sheet"),
    "PIL": named("records.photos web.blinking_picture"),
    "flet": named("ui"),
    "flet_web": named("ui.page.flet_pages"),
    "flet_audio": named("ui.page.sound"),
}
"""Libraries that some packages or modules alone may import."""


@cache
def tree(module: str) -> ast.Module:
    path = PACKAGE / module.replace(".", "/")
    file = path / "__init__.py" if path.is_dir() else path.with_suffix(".py")
    return ast.parse(file.read_text(encoding="utf-8"), str(file))


@cache
def modules() -> tuple[str, ...]:
    """Every module of the package, `plan.steps`; a package itself by its name alone."""
    paths = [path.relative_to(PACKAGE).with_suffix("") for path in PACKAGE.rglob("*.py")]
    names = {".".join(path.parts).removesuffix(".__init__") for path in paths}
    return tuple(sorted(names - {"__init__", "__main__"}))


@cache
def imported(module: str) -> frozenset[str]:
    """Everything it imports anywhere, with full names."""
    names = set()
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}: import by full name"
            assert node.module is not None
            names.add(node.module)
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return frozenset(names)


def foreign(module: str) -> set[str]:
    return {name.split(".")[0] for name in imported(module)} - {"walkaround"}


def own(module: str) -> set[str]:
    """The modules of ours that it imports."""
    names = {name.removeprefix("walkaround.") for name in imported(module)}
    return {name for name in names if name in modules()}


def package(module: str) -> str:
    return module.split(".")[0]


def lies_in(module: str, places: frozenset[str]) -> bool:
    return any(module == place or module.startswith(f"{place}.") for place in places)


def deciding() -> list[str]:
    return [module for module in modules() if package(module) in CORE or module in PURE]


# The one import against the table's order: a face for callers from outside reads its table then.
FACE = ("brakes", "library.stroke_lookup")


@pytest.mark.parametrize("name", IMPORTS)
def test_a_package_imports_what_the_table_says_and_no_more(name: str) -> None:
    of = [(m, other) for m in modules() if package(m) == name for other in own(m)]
    used = {package(other) for m, other in of if (m, other) not in (FACE, ("brakes", "library"))}
    assert used - {name} == IMPORTS[name]


def test_the_table_lists_every_package_and_leads_round_in_no_circle() -> None:
    assert {package(module) for module in modules()} == set(IMPORTS)
    TopologicalSorter(IMPORTS).prepare()


@pytest.mark.parametrize("name", UI_IMPORTS)
def test_a_folder_of_screens_imports_what_its_table_says_and_no_more(name: str) -> None:
    screens = [m.removeprefix("ui.") for m in modules() if m.startswith("ui.")]
    inside = [m for m in screens if package(m) == name]
    used = {
        package(o.removeprefix("ui.")) for m in inside for o in own(f"ui.{m}") if o[:3] == "ui."
    }
    assert used - {name} == UI_IMPORTS[name]


def test_no_module_imports_in_a_circle() -> None:
    TopologicalSorter({module: own(module) - {module} for module in modules()}).prepare()


def test_no_folder_holds_more_than_a_dozen_modules() -> None:
    for folder in [PACKAGE, *(path.parent for path in PACKAGE.rglob("__init__.py"))]:
        there = [path for path in folder.glob("*.py") if path.stem != "__init__"]
        assert len(there) <= MOST_MODULES, folder


@pytest.mark.parametrize("module", deciding())
def test_what_decides_imports_what_does_nothing_but_compute(module: str) -> None:
    allowed = PURE_LIBRARIES | ({"tomli_w"} if module == "vehicle.to_toml" else set())
    assert foreign(module) <= allowed


@pytest.mark.parametrize("module", deciding())
def test_what_decides_opens_no_file_and_asks_no_clock(module: str) -> None:
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.Call):
            called = ast.unparse(node.func)
            assert called not in ("open", "print", "input", "exec", "eval"), called
            assert called.split(".")[-1] not in ("now", "utcnow", "today", "monotonic"), called


@pytest.mark.parametrize("library", ONLY_IN)
def test_a_library_that_touches_the_world_is_imported_where_it_says(library: str) -> None:
    users = {module for module in modules() if library in foreign(module)}
    assert all(lies_in(module, ONLY_IN[library]) for module in users), users
    assert all(any(lies_in(u, frozenset({place})) for u in users) for place in ONLY_IN[library])


def test_screens_decide_nothing_and_save_nothing_themselves() -> None:
    """They show the state and send answers through the open walks; the store is theirs."""
    for module in modules():
        if package(module) == "ui":
            assert not own(module) & {"records.store", "records.reader", "records.walk_file"}
            assert not own(module) & {"disk.durable", "web.server", "cli"}
            assert not foreign(module) & {"os", "shutil", "time", "threading"}


def test_screens_make_no_path_and_open_no_file() -> None:
    """One may name the type of a path that it is given; `Path(...)`, `Path.home()` make one."""
    for module in modules():
        for node in ast.walk(tree(module)) if package(module) == "ui" else ():
            if isinstance(node, ast.Call):
                called = ast.unparse(node.func).split(".")
                assert called[0] not in ("Path", "pathlib", "open"), module
                assert called[-1] not in ("read_text", "read_bytes", "write_text", "write_bytes")


def test_the_core_runs_where_no_shell_library_can_be_imported() -> None:
    code = (
        "import importlib, sys\n"
        "for name in sys.argv[1].split(','):\n    sys.modules[name] = None\n"
        "for name in sys.argv[2].split(','):\n    importlib.import_module('walkaround.' + name)\n"
    )
    barred = set(ONLY_IN) - PURE_LIBRARIES - sys.stdlib_module_names - {"tomli_w"}
    run = [sys.executable, "-c", code, ",".join(barred), ",".join(deciding())]
    done = subprocess.run(run, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
