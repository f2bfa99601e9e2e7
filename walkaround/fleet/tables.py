"""The tables of a fleet's database, created and migrated by whoever publishes first.

Plain SQL that distributed databases accept too: no extensions, no sequences, no temporary tables,
keys that begin with the walk. Every statement may be repeated.
"""

from __future__ import annotations

from psycopg import Connection, errors, sql

from walkaround.base.errors import MachineError
from walkaround.base.message import message

EVENT_COLUMNS = ("walk", "digest", "before", "seq", "body")
FACT_COLUMNS = {
    "time_utc": "TEXT", "who": "TEXT", "part": "TEXT", "step": "TEXT", "title": "TEXT",
    "fact": "TEXT", "item": "TEXT", "item_name": "TEXT", "lamp": "TEXT", "answer": "TEXT",
    "by": "TEXT", "stands": "BOOLEAN", "defect": "TEXT", "reason": "TEXT", "seen": "TEXT",
    "gauge": "TEXT", "at_s": "DOUBLE PRECISION",
    "value_psi": "DOUBLE PRECISION", "value_in": "DOUBLE PRECISION",
    "at_most_in": "DOUBLE PRECISION", "value_s": "DOUBLE PRECISION",
    "value_percent": "DOUBLE PRECISION",
    "rate_psi_per_min": "DOUBLE PRECISION", "rate_low_psi_per_min": "DOUBLE PRECISION",
    "rate_high_psi_per_min": "DOUBLE PRECISION", "at_most_psi_per_min": "DOUBLE PRECISION",
    "verdict": "TEXT", "result": "TEXT", "note": "TEXT",
}  # fmt: skip
"""The columns of a fact and their types; see `report.facts`."""
COPY_COLUMNS = (
    "walk", "tip", "depot", "vehicle_id", "vehicle", "plate", "vin", "scope", "partial",
    "began_utc", "last_utc", "finished_utc", "tag", "odometer_mi", "odometer_km",
)  # fmt: skip

_EVENTS = (
    "walk TEXT NOT NULL, digest TEXT NOT NULL, before TEXT NOT NULL,"
    " seq INTEGER NOT NULL, body TEXT NOT NULL"
)
# The first version had a row for each housing, and its lamps in one column.
_FACTS = "walk TEXT NOT NULL, tip TEXT NOT NULL, place INTEGER NOT NULL, " + ", ".join(
    f'"{"lamps" if name == "lamp" else name}" {kind}' for name, kind in FACT_COLUMNS.items()
)
_FIRST = (
    f"CREATE TABLE IF NOT EXISTS walkaround.events ({_EVENTS}, PRIMARY KEY (walk, digest))",
    "CREATE INDEX IF NOT EXISTS events_before ON walkaround.events (walk, before)",
    f"CREATE TABLE IF NOT EXISTS walkaround.arriving_events (run TEXT NOT NULL, {_EVENTS})",
    """CREATE TABLE IF NOT EXISTS walkaround.copies (
        walk TEXT NOT NULL, tip TEXT NOT NULL, depot TEXT NOT NULL, vehicle_id TEXT NOT NULL,
        vehicle TEXT NOT NULL, plate TEXT, vin TEXT, scope TEXT, partial BOOLEAN,
        began_utc TEXT NOT NULL, last_utc TEXT, finished_utc TEXT, tag TEXT,
        PRIMARY KEY (walk, tip))""",
    "CREATE INDEX IF NOT EXISTS copies_vehicle ON walkaround.copies (vehicle_id, began_utc)",
    """CREATE TABLE IF NOT EXISTS walkaround.signatures (
        walk TEXT NOT NULL, shop_key TEXT NOT NULL, tip TEXT NOT NULL, body TEXT NOT NULL,
        PRIMARY KEY (walk, shop_key, tip))""",
    """CREATE TABLE IF NOT EXISTS walkaround.photos (
        photo TEXT PRIMARY KEY, jpeg BYTEA NOT NULL)""",
    f"CREATE TABLE IF NOT EXISTS walkaround.facts ({_FACTS}, PRIMARY KEY (walk, tip, place))",
    f"CREATE TABLE IF NOT EXISTS walkaround.arriving_facts (run TEXT NOT NULL, {_FACTS})",
    """CREATE OR REPLACE VIEW walkaround.current_copies AS
        SELECT * FROM walkaround.copies c WHERE NOT EXISTS (
            SELECT 1 FROM walkaround.events e WHERE e.walk = c.walk AND e.before = c.tip)""",
    """CREATE OR REPLACE VIEW walkaround.open_defects AS
        SELECT c.depot, c.vehicle_id, c.vehicle, c.plate, c.vin, f.part, f.step, f.title, f.result,
            f.note, f.time_utc, f.who, c.walk
        FROM walkaround.facts f
        JOIN walkaround.current_copies c ON c.walk = f.walk AND c.tip = f.tip
        WHERE f.fact = 'answer' AND f.defect = 'open' AND NOT EXISTS (
            SELECT 1 FROM walkaround.facts o
            JOIN walkaround.current_copies d ON d.walk = o.walk AND d.tip = o.tip
            WHERE d.vehicle_id = c.vehicle_id
                AND (d.vin = c.vin OR d.vin IS NULL OR c.vin IS NULL)
                AND d.walk <> c.walk AND d.began_utc > c.last_utc
                AND o.step = f.step AND o.fact = 'answer' AND o.answer = 'ok' AND o.stands)""",
    """CREATE OR REPLACE VIEW walkaround.leak_and_stroke AS
        SELECT c.vehicle_id, c.vehicle, c.plate, c.vin, f.time_utc, f.fact, f.step, f.title,
            f.gauge, f.item_name, f.rate_psi_per_min, f.rate_low_psi_per_min,
            f.rate_high_psi_per_min, f.at_most_psi_per_min, f.value_in, f.at_most_in, f.verdict,
            c.depot, c.walk
        FROM walkaround.facts f
        JOIN walkaround.current_copies c ON c.walk = f.walk AND c.tip = f.tip
        WHERE f.stands AND (f.fact = 'hold' OR f.value_in IS NOT NULL)""",
    """CREATE OR REPLACE VIEW walkaround.tagged AS
        SELECT c.depot, c.vehicle_id, c.vehicle, c.plate, c.vin, c.last_utc, c.walk
        FROM walkaround.current_copies c
        WHERE c.tag = 'placed' AND NOT EXISTS (
            SELECT 1 FROM walkaround.current_copies d
            WHERE d.vehicle_id = c.vehicle_id
                AND (d.vin = c.vin OR d.vin IS NULL OR c.vin IS NULL)
                AND d.tag IS NOT NULL AND d.began_utc > c.began_utc)""",
)
_SECOND = (
    "ALTER TABLE walkaround.facts ADD COLUMN IF NOT EXISTS lamp TEXT",
    "ALTER TABLE walkaround.arriving_facts ADD COLUMN IF NOT EXISTS lamp TEXT",
    "ALTER TABLE walkaround.copies ADD COLUMN IF NOT EXISTS odometer_mi INTEGER",
    "ALTER TABLE walkaround.copies ADD COLUMN IF NOT EXISTS odometer_km INTEGER",
)
MIGRATIONS = (_FIRST, _SECOND)
"""The statements that make each version out of the one before; published versions never change."""

_TRIES = 5
_CREATED_MEANWHILE = (
    errors.UniqueViolation,
    errors.DuplicateTable,
    errors.DuplicateObject,
    errors.DuplicateSchema,
    errors.InternalError_,
)
"""Errors of a server when another connection is creating, or has just created, the same object."""


def bring_up_to_date(connection: Connection) -> None:
    """Create and migrate the tables; another depot may be doing the same.

    Raises:
        MachineError: a later version of walkaround made these tables.
    """
    current_version = version(connection)
    if current_version > len(MIGRATIONS):
        raise MachineError(message("fleet-later-version"))
    for number, statements in enumerate(MIGRATIONS[current_version:], start=current_version + 1):
        insert = "INSERT INTO walkaround.versions VALUES (%s) ON CONFLICT DO NOTHING"
        for statement in (*_BEGIN, *statements):
            _execute_with_retries(connection, statement)
        connection.execute(insert, [number])


def version(connection: Connection) -> int:
    """Return the version of the tables; 0 if there are none."""
    try:
        row = connection.execute("SELECT max(version) FROM walkaround.versions").fetchone()
    except (errors.UndefinedTable, errors.InvalidSchemaName):
        return 0
    return int(row[0] or 0) if row else 0


_BEGIN = (
    "CREATE SCHEMA IF NOT EXISTS walkaround",
    "CREATE TABLE IF NOT EXISTS walkaround.versions (version INTEGER PRIMARY KEY)",
)


def _execute_with_retries(connection: Connection, statement: str) -> None:
    """Execute a statement; retry if another depot is creating the same object."""
    for tries_left in reversed(range(_TRIES)):
        try:
            connection.execute(sql.SQL(statement))
            return
        except _CREATED_MEANWHILE:
            if not tries_left:
                raise
