"""Taking a photo at a step: prepared, stored beside the walk, then recorded in the walk."""

from __future__ import annotations

from walkaround.records.photos import normalized_photo
from walkaround.ui.page.view import View
from walkaround.walk.events import Photographed


async def photograph(view: View, step_id: str, name: str, data: bytes) -> None:
    """Take this file as a photo of the step; say in a sentence why not.

    Args:
        view: the page.
        step_id: of a step of its walk.
        name: of the file.
        data: as the camera gave it.
    """
    parts, walk_id, who = view.parts, view.walk_id, view.who

    def take() -> None:
        photo = parts.photos.save(walk_id, normalized_photo(data, name))
        parts.open_walks.do(walk_id, who, (Photographed, {"step": step_id, "photo": photo}))

    await view.saved(take)
