"""The command line: `walkaround` starts the app, the other commands print text or JSON.

Exit status: 0 done, 1 the thing checked does not hold, 2 bad input or a machine that failed,
with one sentence on standard error.
"""

from __future__ import annotations

import argparse
import io
import logging
import os
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import get_args

from walkaround.airhold.gauge import GAUGE_STEPS
from walkaround.airhold.readings import log_of
from walkaround.airhold.verdict import assess
from walkaround.base.errors import MachineError, WalkaroundError
from walkaround.base.plaintext import written_out
from walkaround.base.provenance import provenance_counts
from walkaround.base.units import to_psi
from walkaround.bootstrap import read_language, system_clock, today
from walkaround.cli_causes import causes_document, causes_text
from walkaround.cli_exchange import add_exchange
from walkaround.cli_fleet import add_fleet
from walkaround.cli_options import add_data, add_json, add_output, data_folder, print_document
from walkaround.cli_output import (
    check_document,
    check_text,
    hold_document,
    hold_text,
    plan_document,
    plan_text,
    wiring_text,
)
from walkaround.cli_serve import serve
from walkaround.cli_walks import walks_document, walks_text
from walkaround.diagnosis.findings import NOTHING_LIKELY
from walkaround.disk import locations
from walkaround.disk.durable import write_durably
from walkaround.exchange.verify import shop_of
from walkaround.lamps.required_lamps import lamps_for
from walkaround.lamps.wiring import wire
from walkaround.lamps.wiring_document import wiring_document
from walkaround.library.case_file import read_case
from walkaround.library.facts import library_facts, table_facts
from walkaround.library.languages import languages
from walkaround.library.load import (
    Library,
    file_problems,
    load_files,
    load_library,
    load_vehicle,
    reference_of,
)
from walkaround.library.standard_tables import standard_tables
from walkaround.library.toml_file import file_bytes
from walkaround.library.walk_causes import likely_causes
from walkaround.plan.plan_walk import plan_walk
from walkaround.records.export import FILE_KINDS, PAGES, export_walk, kind_by_ending, later_looks
from walkaround.records.photos import PhotoFolder
from walkaround.records.reader import WalkReader
from walkaround.records.walk_line import original_id
from walkaround.records.walk_table import TABLE_KINDS, write_walks
from walkaround.report.page import WalkContext
from walkaround.rules.checklist import Wording
from walkaround.vehicle.model import Vehicle
from walkaround.walk.advance import fold
from walkaround.walk.state import Walk
from walkaround.words.language import Words
from walkaround.words.problems import error_text


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the console script's entry."""
    words = read_language(_language(arguments))
    options = _parser(words).parse_args(arguments)
    options.words = words
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a letter shows its code.
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
    logging.basicConfig(level=logging.INFO if options.verbose else logging.WARNING)
    try:
        return int(options.run(options))
    except WalkaroundError as error:
        _complain(words, error_text(error, words))
        return 2
    except KeyboardInterrupt:
        return 0
    except BrokenPipeError:
        # The reader has seen enough, as `head` has; what is left goes nowhere.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0


def _language(arguments: Sequence[str] | None) -> str:
    """The language asked for, before there are words to ask the rest in."""
    first = argparse.ArgumentParser(prog="walkaround", add_help=False, allow_abbrev=False)
    first.add_argument("--language", choices=languages(), default="en")
    return str(first.parse_known_args(arguments)[0].language)


def _complain(words: Words, sentence: str) -> None:
    print(written_out(words("cli-complaint", sentence=sentence)), file=sys.stderr)


def _parser(words: Words) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="walkaround", description=words("help-app"))
    parser.set_defaults(run=serve)
    _add_serving(parser, words)
    parser.add_argument("--verbose", action="store_true", help=words("help-verbose"))
    add_data(parser, words)
    _add_language(parser, words)
    commands = parser.add_subparsers(title=words("help-commands"), metavar="")
    steps = commands.add_parser("steps", help=words("help-steps"))
    steps.add_argument("vehicle", type=Path, metavar="VEHICLE.toml")
    steps.add_argument("--power", choices=["box", "cab", "helper"], default="")
    wordings, purpose = get_args(Wording), words("help-wording")
    steps.add_argument("--wording", choices=wordings, default="short", help=purpose)
    add_json(steps, words)
    steps.set_defaults(run=_steps)
    wiring = commands.add_parser("wiring", help=words("help-wiring"))
    wiring.add_argument("vehicle", type=Path, metavar="VEHICLE.toml")
    add_json(wiring, words)
    wiring.set_defaults(run=_wiring)
    causes = commands.add_parser("causes", help=words("help-causes"))
    causes.add_argument("case", type=Path, metavar="CASE.toml", help=words("help-causes-case"))
    add_json(causes, words)
    causes.set_defaults(run=_causes)
    hold = commands.add_parser("hold", help=words("help-hold"))
    hold.add_argument("log", type=Path, metavar="LOG.csv", help=words("help-hold-log"))
    limit_help = words("help-hold-limit")
    hold.add_argument("--limit", type=float, required=True, metavar="PSI_PER_MIN", help=limit_help)
    step_help = words("help-hold-gauge-step")
    hold.add_argument("--gauge-step", type=float, metavar="STEP", help=step_help)
    sd_help = words("help-hold-read-sd")
    hold.add_argument("--read-sd", type=float, default=0.25, metavar="PSI", help=sd_help)
    add_json(hold, words)
    hold.set_defaults(run=_hold)
    check = commands.add_parser("check", help=words("help-check"))
    check.add_argument("files", type=Path, nargs="*", metavar="FILE")
    add_data(check, words, default=argparse.SUPPRESS)
    add_json(check, words)
    check.set_defaults(run=_check)
    walks = commands.add_parser("walks", help=words("help-walks"))
    # Unsaid here, it is what was said before the command.
    add_data(walks, words, default=argparse.SUPPRESS)
    add_json(walks, words)
    add_output(walks, words("help-walks-output", kinds=_listed(TABLE_KINDS)), required=False)
    walks.add_argument("--facts", action="store_true", help=words("help-facts"))
    walks.set_defaults(run=_walks)
    report = commands.add_parser("report", help=words("help-report"))
    report.add_argument("walk", metavar="WALK")
    add_output(report, words("help-report-output", kinds=_listed(FILE_KINDS)), required=True)
    add_data(report, words, default=argparse.SUPPRESS)
    report.set_defaults(run=_report)
    add_exchange(commands, words)
    add_fleet(commands, words)
    for command in commands.choices.values():
        _add_language(command, words)
    return parser


def _add_serving(parser: argparse.ArgumentParser, words: Words) -> None:
    add = parser.add_argument
    add("--host", metavar="ADDRESS", help=words("help-host"))
    add("--port", type=int, default=8765, help=words("help-port"))
    add("--lan", action="store_true", help=words("help-lan"))
    add("--new-key", action="store_true", help=words("help-new-key"))
    add("--https", action="store_true", help=words("help-https"))
    add("--certificate", type=Path, metavar="FILE", help=words("help-certificate"))
    add("--private-key", type=Path, metavar="FILE", help=words("help-private-key"))
    add("--no-browser", action="store_true", help=words("help-no-browser"))


def _add_language(parser: argparse.ArgumentParser, words: Words) -> None:
    among, purpose = languages(), words("help-language", languages=languages())
    parser.add_argument("--language", choices=among, default=argparse.SUPPRESS, help=purpose)


def _listed(kinds: Sequence[str]) -> str:
    return ", ".join(f".{kind}" for kind in kinds)


def _steps(options: argparse.Namespace) -> int:
    library = _library_of_today()
    vehicle = _vehicle(options.vehicle, library)
    plan = plan_walk(vehicle, library.rules, power=options.power)
    document = plan_document(plan, library, options.words, options.wording)
    print_document(options, document, plan_text(document, options.words))
    return 0


def _wiring(options: argparse.Namespace) -> int:
    library = _library_of_today()
    vehicle = _vehicle(options.vehicle, library)
    lamps = lamps_for(vehicle, library.checklists)
    wiring = wire(vehicle, lamps, library.connectors)
    document = wiring_document(vehicle, lamps, wiring, standard_tables().bulbs)
    print_document(options, document, wiring_text(document, options.words))
    return 0


def _causes(options: argparse.Namespace) -> int:
    library = _library_of_today()
    case = read_case(options.case, library, today(system_clock))
    findings = case.findings
    document = causes_document(case.vehicle, findings, options.words)
    print_document(options, document, causes_text(findings, options.words))
    return 0


def _hold(options: argparse.Namespace) -> int:
    log = log_of(file_bytes(options.log), str(options.log))
    step = GAUGE_STEPS[log.unit][0] if options.gauge_step is None else options.gauge_step
    result = assess(log.readings, options.limit, to_psi(step, log.unit), options.read_sd)
    text = hold_text(result, options.limit, log, options.words)
    print_document(options, hold_document(result, options.limit, log), text)
    return 1 if result.verdict == "over" else 0


def _check(options: argparse.Namespace) -> int:
    day, files = today(system_clock), options.files
    if files:
        problems = file_problems(files, locations.shipped(), day)
        provenance = provenance_counts(library_facts(load_files(files, today=day)))
        text = check_text(problems, options.words)
    else:
        data = locations.data_dir(options.data)
        own = (locations.own_checklists(data), data)
        library = load_library(locations.shipped(), *own, today=day)
        problems = library.problems
        provenance = provenance_counts([*library_facts(library), *table_facts(standard_tables())])
        text = "\n".join(
            [check_text(problems, options.words), options.words("cli-provenance", **provenance)]
        )
    print_document(options, check_document(files, problems, provenance, options.words), text)
    return 1 if problems else 0


def _walks(options: argparse.Namespace) -> int:
    reader = WalkReader(data_folder(options))
    walks = reader.overview()
    unread = [options.words.text(sentence) for sentence in walks.unread]
    if options.output:
        kind = kind_by_ending(options.output, TABLE_KINDS)
        write_walks(options.output, reader, walks, kind, options.words, facts=options.facts)
    else:
        document = walks_document(walks.lines, unread)
        print_document(options, document, walks_text(document, options.words))
    for sentence in unread:
        _complain(options.words, sentence)
    return 2 if unread else 0


def _report(options: argparse.Namespace) -> int:
    kind = kind_by_ending(options.output, FILE_KINDS)
    data_at = data_folder(options)
    reader = WalkReader(data_at)
    loaded = reader.load(options.walk)
    if not loaded.events:
        raise MachineError(loaded.notice)
    walk = fold(loaded.events)
    photos = PhotoFolder(data_at).read_available(options.walk, walk.photos_taken)

    def walk_of(walk_id: str) -> Walk:
        return replace(fold(reader.load(walk_id).events), id=walk_id)

    later = later_looks(replace(walk, id=options.walk), reader.overview(), walk_of)
    where = shop_of(data_at, original_id(options.walk), reader.read(options.walk))
    likely = likely_causes(walk, _library_of_today()) if kind in PAGES else NOTHING_LIKELY
    context = WalkContext(loaded.notice, photos, likely, later, where)
    data = export_walk(walk, kind, options.words, context)
    write_durably(options.output, data)
    return 0


def _library_of_today() -> Library:
    """What comes with the app, as it is in force today."""
    day = today(system_clock)
    library = load_library(locations.shipped(), today=day)
    return replace(library, checklists=library.rules.on(day).checklists)


def _vehicle(path: Path, library: Library) -> Vehicle:
    day = today(system_clock)
    return load_vehicle(path, reference_of(library.checklists, library.connectors, day))
