"""README.md and DEVELOPERS.md say what is so: commands, flags, modules, keys."""

from __future__ import annotations

import re
import subprocess
from contextlib import redirect_stdout, suppress
from functools import cache
from io import StringIO
from pathlib import Path

import pytest

from walkaround.base.toml_model import Written
from walkaround.cli import main
from walkaround.disk import locations
from walkaround.lamps.connector import Connector, Pin
from walkaround.library.air_case import AirCase, CaseHold
from walkaround.library.case_file import Case
from walkaround.rounds.power_source import Position, PowerSource, Switch
from walkaround.rules.checklist import Applies, Checklist, StepRule
from walkaround.rules.conditions import Span
from walkaround.rules.lamp_rule import LampRule, Variant
from walkaround.rules.limits import LimitRow, MeasureRule, WaitRule, WrittenHold
from walkaround.vehicle.model import Axle, Brakes, Electrical, LampWiring, Vehicle

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def section(text: str, heading: str) -> str:
    """What stands under a heading, up to the next one of its level or higher."""
    level = heading.count("#")
    found = re.search(rf"(?ms)^{re.escape(heading)}$(.*?)(?=^#{{1,{level}}} |\Z)", text + "\n")
    assert found, f"no section {heading}"
    return found[1]


def rows(text: str) -> list[list[str]]:
    """The rows of the tables in a text, cell by cell, without their heads."""
    lines = [line for line in text.splitlines() if line.startswith("|")]
    cells = [[c.strip() for c in re.split(r"(?<!\\)\|", line)[1:-1]] for line in lines]
    return [row for row in cells if row[0].startswith("`")]


def quoted(cell: str) -> list[str]:
    return re.findall(r"`([^`]+)`", cell)


@cache
def help_of(*command: str) -> str:
    printed = StringIO()
    with redirect_stdout(printed), suppress(SystemExit):
        main([*command, "--help"])
    return printed.getvalue()


def flags(text: str) -> set[str]:
    return set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", text))


# README


def test_the_first_paragraph_tells_the_job() -> None:
    first = README.split("\n\n")[1]
    for said in ("one mechanic, alone", "lamp and air-brake check", "tap", "air hold", "record"):
        assert said in first.replace("\n", " ")


def commands() -> list[str]:
    return re.findall(r"```sh\n(.*?)```", section(README, "## Set up"), re.DOTALL)


def test_two_commands_of_one_line_set_everything_up() -> None:
    assert len(commands()) == 2
    assert section(README, "## Set up").count("```") == 4
    start, test = (command.strip() for command in commands())
    assert "\n" not in start + test
    assert start.endswith(".venv/bin/walkaround")
    assert test.endswith(".venv/bin/pytest")
    assert "chromium" in test


def test_ci_runs_the_readmes_test_command_and_no_other() -> None:
    """The script's own words, with the last line saying the command instead of running it."""
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert script.count('bash -euo pipefail -c "$command" </dev/null') == 1
    saying = script.replace('bash -euo pipefail -c "$command" </dev/null', 'echo "$command"')
    saying = saying.replace('"$(dirname "${BASH_SOURCE[0]}")/.."', f'"{ROOT}"')
    done = subprocess.run(["bash", "-c", saying], capture_output=True, text=True, check=True)
    assert done.stdout == commands()[1]


@cache
def commands_there_are() -> tuple[str, ...]:
    return tuple(re.findall(r"(?m)^    (\w+)  ", help_of().partition("commands:")[2]))


def test_every_command_stands_in_the_readme_and_no_other() -> None:
    said = [quoted(row[0])[0] for row in rows(section(README, "## Commands")) if "--" not in row[0]]
    assert said[0] == "walkaround"
    assert [row.split()[1] for row in said[1:]] == list(commands_there_are())


def test_every_flag_stands_in_the_readme_and_no_other() -> None:
    known: dict[str, set[str]] = {}
    for command in ("app", *commands_there_are()):
        for flag in flags(help_of(*[command] * (command != "app"))):
            known.setdefault(flag, set()).add(command)
    table = rows(section(README, "## Commands"))
    told = {quoted(row[0])[0].split()[0]: row[1] for row in table if "--" in row[0]}
    assert set(told) == set(known)
    for flag, whose in told.items():
        if "all" not in whose:
            assert set(re.findall(r"\w+", whose)) == known[flag], flag


def test_no_environment_variable_is_read_without_being_told() -> None:
    reading = re.compile(r"os\.getenv|os\.environ(?!\[.*?\] = )")
    sources = (ROOT / "walkaround").rglob("*.py")
    assert not [path.name for path in sources if reading.search(path.read_text("utf-8"))]
    assert "no environment variables" in README


def test_what_the_data_folder_holds_is_told() -> None:
    data = Path("data")
    places = (
        locations.walks,
        locations.practice,
        locations.own_vehicles,
        locations.own_checklists,
        locations.speech,
        locations.log_folder,
        locations.pairing,
        locations.sharing,
    )
    files = (
        locations.settings,
        locations.walk_list,
        locations.contact_checks,
        locations.half_typed,
        locations.double_checks,
    )
    names = {f"{place(data).name}/" for place in places} | {file(data).name for file in files}
    told = {quoted(row[0])[0] for row in rows(section(README, "## Where records live"))}
    assert told == names


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_every_file_that_is_pointed_to_is_there(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    named = re.findall(r'(?:src="|\]\()(?!http)([^")#]+)', text)
    named += re.findall(r"`((?:assets|checklists|tests|walkaround)/[\w./]+)`", text)
    for path in named:
        assert (ROOT / path).exists(), path
    modules = re.findall(r"`([a-z_]+/[a-z_/]+\.py)`", text)
    assert [
        path
        for path in modules
        if not (ROOT / "walkaround" / path).exists() and not (ROOT / path).exists()
    ] == []


@pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README", "DEVELOPERS"])
def test_no_line_of_words_is_too_long_to_read(text: str) -> None:
    prose = [line for line in text.splitlines() if not line.startswith(("|", "<", "$", "- **"))]
    assert max(map(len, prose)) <= 100


# DEVELOPERS


def test_the_map_lists_exactly_the_packages_there_are() -> None:
    listed = [name for row in rows(section(DEVELOPERS, "## Map")) for name in quoted(row[0])]
    package = ROOT / "walkaround"
    there = {path.parent.name for path in package.glob("*/__init__.py")}
    there |= {path.stem for path in package.glob("*.py") if not path.stem.startswith("__")}
    assert set(listed) == there
    assert len(listed) == len(there)


@pytest.mark.parametrize(
    ("heading", "model"),
    [
        ("### Checklist file", Checklist),
        ("### `[applies]`", Applies),
        ("### `[[lamp]]`", LampRule),
        ("### `[[lamp.variant]]`", Variant),
        ("### A span of sizes", Span),
        ("### `[[step]]`", StepRule),
        ("### `[step.hold]`", WrittenHold),
        ("### `[step.measure]`", MeasureRule),
        ("### `[step.wait]`", WaitRule),
        ("### `[[step.limit]]`", LimitRow),
        ("### Vehicle file", Vehicle),
        ("### `[electrical]`", Electrical),
        ("### `[[electrical.lamps]]`", LampWiring),
        ("### `[brakes]`", Brakes),
        ("### `axles`", Axle),
        ("### `[[connector]]`", Connector),
        ("### `pins`", Pin),
        ("### Case file", Case),
        ("### `[air]`", AirCase),
        ("### `[[air.hold]]`", CaseHold),
        ("### `[[power_source]]`", PowerSource),
        ("### `[[power_source.switch]]`", Switch),
        ("### `[[power_source.switch.position]]`", Position),
    ],
)
def test_every_key_of_a_file_is_told_and_whether_it_is_needed(
    heading: str, model: type[Written]
) -> None:
    told = {
        key: row[1] == "yes" for row in rows(section(DEVELOPERS, heading)) for key in quoted(row[0])
    }
    known = {
        str(field.validation_alias or name): field.is_required()
        for name, field in model.model_fields.items()
    }
    assert told == known


def test_what_is_not_released_yet_is_told() -> None:
    assert re.search(r"(?m)^- \w", section(DEVELOPERS, "### Unreleased"))
