"""Each phone has its settings for itself; what the shop goes by is everybody's."""

from __future__ import annotations

import json
from collections.abc import Mapping

import pytest

from walkaround.settings import OF_SHOP, Settings
from walkaround.ui.page.device import Device
from walkaround.ui.page.own_settings import OwnSettings


class Phone(Device):
    """A phone whose browser keeps things, unless it is private; `silent` times it says nothing."""

    def __init__(
        self, kept: Mapping[str, object] | None = None, *, private: bool = False, silent: int = 0
    ) -> None:
        self._private = private
        self._silent = silent
        self.text = json.dumps(kept or {})

    async def stored(self) -> dict[str, object] | None:
        self._silent -= 1
        return None if self._silent >= 0 else dict(json.loads(self.text))

    async def store(self, values: Mapping[str, object]) -> bool:
        if not self._private:
            self.text = json.dumps(dict(values))
        return not self._private


SHOPS = Settings(wording="long", pressure="kPa", who="Ben", altitude_m=300.0)


async def test_what_is_set_on_a_phone_stays_on_it_and_the_rest_goes_to_the_shop() -> None:
    phone = Phone()
    own = OwnSettings(phone)
    now = await own.recall(SHOPS)
    assert now == SHOPS
    after = now.signed("Ana").model_copy(update={"dark": True, "altitude_m": 120.0})
    for_shop = await own.keep(now, after)
    assert for_shop == {"names": ["Ana"], "altitude_m": 120.0}
    again = await OwnSettings(phone).recall(SHOPS)
    assert (again.who, again.dark, again.altitude_m) == ("Ana", True, 300.0)
    # What it never set follows the shop's.
    assert (again.wording, again.pressure) == ("long", "kPa")
    other = await OwnSettings(Phone()).recall(SHOPS)
    assert other == SHOPS


async def test_a_phone_that_keeps_nothing_has_the_shop_keep_it() -> None:
    phone = Phone(private=True)
    changed = await OwnSettings(phone).keep(SHOPS, SHOPS.model_copy(update={"voice": False}))
    assert changed == {"voice": False}


async def test_what_was_set_before_the_phone_answered_is_not_taken_back() -> None:
    own = OwnSettings(Phone({"wording": "brisk", "dark": False}))
    await own.keep(SHOPS, SHOPS.model_copy(update={"wording": "short"}))
    now = await own.recall(SHOPS)
    assert (now.wording, now.dark) == ("short", False)


@pytest.mark.parametrize("silent", [1, 2])
async def test_a_phone_too_slow_to_say_what_it_keeps_loses_nothing(silent: int) -> None:
    phone = Phone({"who": "Ana", "dark": True}, silent=silent)
    own = OwnSettings(phone)
    now = await own.recall(SHOPS)
    for_shop = await own.keep(now, now.model_copy(update={"voice": False}))
    again = await OwnSettings(phone).recall(SHOPS)
    assert (again.who, again.dark) == ("Ana", True)
    assert (again.voice, for_shop) == ((False, {}) if silent == 1 else (True, {"voice": False}))


@pytest.mark.parametrize("value", ["loud", None, 7])
async def test_what_a_phone_keeps_that_does_not_fit_is_left(value: object) -> None:
    now = await OwnSettings(Phone({"wording": value, "dark": True})).recall(SHOPS)
    assert now.dark is True
    assert now.wording in ("short", "long")


async def test_a_phone_cannot_change_what_the_shop_goes_by() -> None:
    assert {"shop", "gauges", "altitude_m"} <= OF_SHOP
    now = await OwnSettings(Phone({"altitude_m": 5000.0, "shop": {}})).recall(SHOPS)
    assert now == SHOPS
