"""Responses with files: pictures, photos, record files, vehicles, tables."""

from __future__ import annotations

import logging
from collections.abc import Mapping

from fastapi.responses import FileResponse, Response
from starlette.background import BackgroundTask

from walkaround.base.errors import InputError, WalkaroundError
from walkaround.bootstrap import Parts
from walkaround.diagnosis.findings import NOTHING_LIKELY
from walkaround.drawing.part_drawings.line_drawing import SUBJECTS, line_drawing
from walkaround.drawing.plan_svg import PictureStyle, plan_svg, style_named
from walkaround.library.walk_causes import likely_causes
from walkaround.plan.steps import Plan, Step
from walkaround.records.export import FILE_KINDS, PAGES, FileKind, export_walk, file_name
from walkaround.records.walk_line import is_walk_id
from walkaround.records.walk_table import TABLE_KINDS, write_walks
from walkaround.report.page import WalkContext
from walkaround.vehicle.to_toml import vehicle_toml
from walkaround.web.blinking_picture import blinking_webp
from walkaround.words.language import Words

log = logging.getLogger(__name__)

_MEDIA_TYPES: Mapping[FileKind, str] = {
    "pdf": "application/pdf",
    "html": "text/html; charset=utf-8",
    "csv": "text/csv; charset=utf-8",
    "ndjson": "application/x-ndjson; charset=utf-8",
    "json": "application/json; charset=utf-8",
}


def plan_response(parts: Parts, words: Words, walk_id: str, step_id: str, name: str) -> Response:
    """Return the plan of a walk for one of its steps, in a look of this name."""
    if (pictured := _pictured(parts, walk_id, step_id, name)) is None:
        return Response(status_code=404)
    return _picture(plan_svg(*pictured, words.text))


def blinking_picture(parts: Parts, walk_id: str, step_id: str, name: str) -> Response:
    """Return the animated picture of the flashing lamps, to lay over the same plan."""
    pictured = _pictured(parts, walk_id, step_id, name)
    picture = blinking_webp(*pictured) if pictured else None
    return _picture(picture, "image/webp") if picture else Response(status_code=404)


def _pictured(
    parts: Parts, walk_id: str, step_id: str, name: str
) -> tuple[Plan, Step, PictureStyle] | None:
    look = style_named(name)
    try:
        plan = parts.open_walks.walk(walk_id).plan
    except WalkaroundError:
        return None
    step = plan.step(step_id) if plan else None
    return (plan, step, look) if plan and step and look else None


def part_picture(words: Words, subject: str, name: str) -> Response:
    """Return the line drawing of a part, in a look of this name."""
    look = style_named(name)
    known_subject = next((each for each in SUBJECTS if each == subject), None)
    if look is None or known_subject is None:
        return Response(status_code=404)
    return _picture(line_drawing(known_subject, look.palette, look.width, look.height, words.text))


def _picture(picture: str | bytes, media_type: str = "image/svg+xml") -> Response:
    # It never changes, but a later version may draw it differently: it is not cached for long.
    headers = {"Cache-Control": "private, max-age=86400"}
    return Response(picture, media_type=media_type, headers=headers)


def photo_file(parts: Parts, walk_id: str, photo: str) -> Response:
    """Return one photo of a walk, by its digest.

    Also of a walk that is hidden from the second walker: requests of the first walker's phone look
    the same. Nobody can guess a digest, and only the first walker's screens show it.
    """
    try:
        taken = parts.open_walks.walk(walk_id).photos_taken
        data = parts.photos.read(walk_id, photo) if photo in taken else None
    except WalkaroundError:
        data = None
    if data is None:
        return Response(status_code=404)
    # What a digest names never changes.
    headers = {"Cache-Control": "private, max-age=31536000, immutable"}
    return Response(data, media_type="image/jpeg", headers=headers)


def vehicle_file(parts: Parts, name: str) -> Response:
    """Return one vehicle as a download, `ID.toml`."""
    vehicle = parts.own_vehicles.vehicle(name.removesuffix(".toml"))
    if vehicle is None or not name.endswith(".toml"):
        return Response(status_code=404)
    return _download(vehicle_toml(vehicle).encode(), "application/toml; charset=utf-8", name)


def record_file(parts: Parts, words: Words, name: str) -> Response:
    """Return one walk as a download, `WALK.pdf` and so on for each kind of file."""
    walk_id, _, ending = name.rpartition(".")
    kind = next((kind for kind in FILE_KINDS if kind == ending), None)
    if kind is None:
        return Response(status_code=404)
    try:
        walk, damage = parts.open_walks.walk(walk_id), parts.open_walks.notice(walk_id)
    except WalkaroundError:
        return Response(status_code=404)
    if parts.is_blind(walk):
        return Response(words("double-files-wait"), status_code=409)
    photos = parts.photos.read_available(walk_id, walk.photos_taken)
    likely = likely_causes(walk, parts.library) if kind in PAGES else NOTHING_LIKELY
    later, shop = parts.later(walk), parts.sharing.shop_of(walk_id) if kind in PAGES else ""
    data = export_walk(walk, kind, words, WalkContext(damage, photos, likely, later, shop))
    return _download(data, _MEDIA_TYPES[kind], file_name(walk, kind))


def shared_file(parts: Parts, words: Words, name: str) -> Response:
    """Return one walk with all its copies as a record file, `WALK.zip`, or all, `all.zip`."""
    walk_id = "" if name == "all.zip" else name.removesuffix(".zip")
    try:
        if walk_id and not (name.endswith(".zip") and is_walk_id(walk_id)):
            return Response(status_code=404)
        if walk_id and parts.is_blind(parts.open_walks.walk(walk_id)):
            return Response(words("double-files-wait"), status_code=409)
        path, file_name_shown = parts.sharing.record_file(walk_id)
    except InputError:
        return Response(status_code=404)
    except WalkaroundError as error:
        log.warning("nothing was shared: %s", error)
        return Response(words.text(error.text), status_code=507)
    headers = {"Cache-Control": "no-store"}
    delete_file = BackgroundTask(path.unlink, missing_ok=True)
    return FileResponse(path, 200, headers, "application/zip", delete_file, file_name_shown)


def table_file(parts: Parts, words: Words, name: str) -> Response:
    """Return the table of all walks, `walks.csv`, or of their facts, `facts.csv` or `.ndjson`."""
    table, _, ending = name.partition(".")
    kind = next((kind for kind in TABLE_KINDS if kind == ending), None)
    if kind is None or table not in ("walks", "facts"):
        return Response(status_code=404)
    try:
        path, overview = parts.sharing.incoming(), parts.store.overview()
        write_walks(path, parts.store, overview, kind, words, facts=table == "facts")
    except WalkaroundError as error:
        log.warning("no table was made: %s", error)
        return Response(words.text(error.text), status_code=507)
    headers = {"Cache-Control": "no-store"}
    delete_file = BackgroundTask(path.unlink, missing_ok=True)
    return FileResponse(path, 200, headers, _MEDIA_TYPES[kind], delete_file, name)


def _download(data: bytes, media_type: str, name: str) -> Response:
    return Response(
        data,
        media_type=media_type,
        headers={
            "Content-Disposition": f'attachment; filename="{name}"',
            # The browser stores no copy of the record.
            "Cache-Control": "no-store",
        },
    )
