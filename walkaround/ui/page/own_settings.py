"""Settings that belong to one phone and stay on it, since several people share a data folder."""

from __future__ import annotations

from walkaround.settings import OF_SHOP, Settings
from walkaround.ui.page.device import Device


class OwnSettings:
    """The settings made on one phone."""

    def __init__(self, device: Device) -> None:
        """Take the phone, which keeps them."""
        self._device = device
        self._made: dict[str, object] = {}
        self._recalled = False

    async def recall(self, settings: Settings) -> Settings:
        """Put what this phone keeps, and what was set on it meanwhile, in place of these."""
        stored = await self._device.stored()
        self._recalled = self._recalled or stored is not None
        self._made = {**(stored or {}), **self._made}
        return settings.on_phone(self._made)

    async def keep(self, before: Settings, after: Settings) -> dict[str, object]:
        """Store on the phone what changed and is its own.

        Returns:
            What changed and is to be kept for the shop; of a phone that keeps nothing, or does not
            say what it keeps, all of it.
        """
        stored = before.model_dump(mode="json")
        changed: dict[str, object] = {
            name: value
            for name, value in after.model_dump(mode="json").items()
            if value != stored[name]
        }
        of_shop = {name: value for name, value in changed.items() if name in OF_SHOP}
        if of_shop == changed:
            return changed
        self._made |= {name: value for name, value in changed.items() if name not in OF_SHOP}
        if not self._recalled:
            # Or what it keeps would be written over.
            await self.recall(after)
        kept = self._recalled and await self._device.store(self._made)
        return of_shop if kept else changed
