"""Own vehicles on disk: saved whole, renamed, put aside, taken in; nothing is overwritten."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest
from support.made_up_vehicles import SEMITRAILER, SHIPPED, TODAY

from walkaround.base.errors import InputError, MachineError
from walkaround.library.own_vehicles import MAX_UPLOAD_BYTES, OwnVehicles
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle.to_toml import vehicle_toml
from walkaround.vehicle_editor.new_vehicle import copy_of

COPY = copy_of(SEMITRAILER, ["Sandbag semitrailer 7"])
ID = "sandbag_semitrailer_8"


@pytest.fixture
def open_(tmp_path: Path) -> Callable[..., OwnVehicles]:
    """Opens the vehicles of one data folder, again and again."""
    return lambda *walked: OwnVehicles(tmp_path, lambda: TODAY, lambda: set(walked))


def files(data: Path) -> set[str]:
    return {path.relative_to(data).as_posix() for path in data.rglob("*") if path.is_file()}


def renamed(vehicle: Vehicle, name: str) -> Vehicle:
    return vehicle.model_copy(update={"name": name})


def test_a_saved_vehicle_stands_beside_the_shipped_ones_also_after_a_restart(
    open_: Callable[..., OwnVehicles], tmp_path: Path
) -> None:
    own_vehicles = open_()
    assert own_vehicles.save(COPY) == ID
    for each in (own_vehicles, open_()):
        assert each.vehicle(ID) == COPY.model_copy(update={"id": ID})
        assert len(each.library.vehicles) == len(SHIPPED) + 1
        assert each.is_own(ID)
        assert not each.is_own(SEMITRAILER.id)
        assert not each.library.problems
    assert tomllib.loads((tmp_path / "vehicles" / f"{ID}.toml").read_text())["id"] == ID


def test_what_is_wrong_is_not_saved(open_: Callable[..., OwnVehicles], tmp_path: Path) -> None:
    own_vehicles = open_()
    for wrong in ({"vin": "12"}, {"name": " "}, {"name": "Pump trailer 3"}):
        with pytest.raises(InputError):
            own_vehicles.save(COPY.model_copy(update=wrong))
    assert not files(tmp_path)


def test_a_vehicle_without_walks_gets_the_id_of_its_new_name(
    open_: Callable[..., OwnVehicles], tmp_path: Path
) -> None:
    own_vehicles = open_()
    own_vehicles.save(COPY)
    assert own_vehicles.save(renamed(COPY, "Tanker 9"), ID) == "tanker_9"
    assert own_vehicles.vehicle(ID) is None
    assert files(tmp_path) == {"vehicles/tanker_9.toml", f"vehicles/removed/{ID}.toml"}


def test_a_vehicle_with_walks_keeps_its_id_and_the_file_before_is_kept(
    open_: Callable[..., OwnVehicles], tmp_path: Path
) -> None:
    own_vehicles = open_(ID)
    with pytest.raises(InputError, match="not made in this app"):
        own_vehicles.save(COPY, SEMITRAILER.id)
    assert open_().save(COPY) == ID
    own_vehicles = open_(ID)
    assert own_vehicles.save(renamed(COPY, "Tanker 9"), ID) == ID
    assert files(tmp_path) == {f"vehicles/{ID}.toml", f"vehicles/{ID}.toml.prev"}
    assert "Sandbag" in (tmp_path / "vehicles" / f"{ID}.toml.prev").read_text()


def test_an_edit_without_a_new_name_keeps_id_and_file(
    open_: Callable[..., OwnVehicles], tmp_path: Path
) -> None:
    own_vehicles = open_()
    (tmp_path / "vehicles").mkdir()
    by_hand = tmp_path / "vehicles" / "By hand.toml"
    by_hand.write_text(vehicle_toml(COPY.model_copy(update={"id": "other"})))
    own_vehicles = open_()
    assert own_vehicles.save(COPY.model_copy(update={"plate": "fr 0808"}), "other") == "other"
    assert 'plate = "FR 0808"' in by_hand.read_text()
    assert len(list((tmp_path / "vehicles").glob("*.toml"))) == 1


def test_no_file_that_cannot_be_read_and_no_walked_id_is_taken_for_a_new_vehicle(
    open_: Callable[..., OwnVehicles], tmp_path: Path
) -> None:
    (tmp_path / "vehicles").mkdir()
    broken = tmp_path / "vehicles" / f"{ID}.toml"
    broken.write_text("nonsense")
    own_vehicles = open_(f"{ID}_2")
    assert len(own_vehicles.library.problems) == 1
    assert own_vehicles.save(COPY) == f"{ID}_3"
    assert broken.read_text() == "nonsense"


def test_a_removed_vehicle_is_put_aside_and_its_name_is_free_again(
    open_: Callable[..., OwnVehicles], tmp_path: Path
) -> None:
    own_vehicles = open_()
    for _ in range(3):
        assert own_vehicles.save(COPY) == ID
        own_vehicles.remove(ID)
        assert own_vehicles.vehicle(ID) is None
    removed = {f"vehicles/removed/{ID}{n}.toml" for n in ("", ".2", ".3")}
    assert files(tmp_path) == removed
    with pytest.raises(InputError, match="not made in this app"):
        own_vehicles.remove(SEMITRAILER.id)


def test_a_write_that_fails_leaves_everything_as_it_was(
    open_: Callable[..., OwnVehicles], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own_vehicles = open_()
    own_vehicles.save(COPY)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as broken:
        broken.setattr("os.fsync", full)
        with pytest.raises(MachineError, match="no room left"):
            own_vehicles.save(COPY.model_copy(update={"plate": "FR 1"}), ID)
    assert own_vehicles.vehicle(ID) == open_().vehicle(ID) == COPY.model_copy(update={"id": ID})
    assert files(tmp_path) == {f"vehicles/{ID}.toml"}


def test_what_a_killed_write_left_is_swept(
    open_: Callable[..., OwnVehicles], tmp_path: Path
) -> None:
    (tmp_path / "vehicles").mkdir()
    (tmp_path / "vehicles" / "x.toml.tmp").write_text("half")
    open_()
    assert not files(tmp_path)


def test_a_file_handed_over_is_read_and_not_saved(
    open_: Callable[..., OwnVehicles], tmp_path: Path
) -> None:
    own_vehicles = open_()
    vehicle = COPY.model_copy(update={"id": "from_elsewhere"})
    assert own_vehicles.parse_file(vehicle_toml(vehicle).encode(), "x.toml") == vehicle
    assert not files(tmp_path)
    assert own_vehicles.save(vehicle, keep_id=True) == "from_elsewhere"
    again = renamed(vehicle, "Tanker 9")
    assert own_vehicles.save(again, keep_id=True) == "tanker_9"


@pytest.mark.parametrize(
    ("data", "count", "words"),
    [
        (b"", 1, "holds nothing"),
        (b"\xff\xfe", 1, "not UTF-8"),
        (b"id = 1\nkind = 'bike'\nnonsense = 2\n", 7, "nonsense"),
        (b"#" * (MAX_UPLOAD_BYTES + 1), 1, "larger than 100 kB"),
    ],
)
def test_a_bad_file_is_told_with_all_its_problems(
    open_: Callable[..., OwnVehicles], data: bytes, count: int, words: str
) -> None:
    with pytest.raises(InputError) as told:
        open_().parse_file(data, "x.toml")
    assert len(told.value.problems) == count
    assert words in str(told.value)
    assert all(problem.where == "x.toml" for problem in told.value.problems)
