"""The lamps of a vehicle as netlists for ngspice, a circuit simulator that is not ours.

A netlist is written from what `walkaround wiring --json` prints, the vehicle's size and the table
of figures, by nothing that the product's own network is made of. Many states of one vehicle go
into one run: each is a circuit of its own, and nothing but node 0 is common to them.
"""

from __future__ import annotations

import csv
import math
import os
import subprocess
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from walkaround.disk.locations import shipped

LIT, DIM = 0.5, 0.04
"""Light below which a lamp is no longer called lit, no longer dim, as a share of the usual."""


def figures() -> dict[str, float]:
    """The table of figures, as it stands in the file."""
    lines = (shipped() / "lamp_causes.csv").read_text(encoding="utf-8").splitlines()
    rows = csv.DictReader(line for line in lines if not line.startswith("#"))
    return {row["id"]: float(row["value"]) for row in rows}


@dataclass(frozen=True)
class Broken:
    """One fault as the simulator has it: what is cut, what has more ohms, what touches."""

    kind: str = ""
    place: str = ""
    ohms: float = math.inf


State = tuple[Sequence[Broken], frozenset[str]]
"""Faults that there are at once, and the circuits that are on."""
Light = dict[str, dict[str, float]]
"""By housing and circuit."""
STATES_A_RUN = 10
"""One state that is hard to solve makes all of its run be solved again."""


@dataclass
class Spice:
    """One vehicle's wiring, as printed, to be simulated.

    Attributes:
        wiring: the document of `walkaround wiring --json`.
        length_mm, width_mm: of the vehicle.
    """

    wiring: Mapping[str, Any]
    length_mm: float
    width_mm: float
    figures: dict[str, float] = field(default_factory=figures)

    @property
    def circuits(self) -> list[str]:
        return [circuit["id"] for circuit in self.wiring["circuits"]]

    @property
    def lamps(self) -> Sequence[Mapping[str, Any]]:
        lamps: Sequence[Mapping[str, Any]] = self.wiring["filaments"]
        return lamps

    @property
    def clusters(self) -> list[str]:
        return list(dict.fromkeys(lamp["cluster"] for lamp in self.lamps))

    @property
    def branches(self) -> list[tuple[str, str]]:
        return list(dict.fromkeys((lamp["circuit"], lamp["cluster"]) for lamp in self.lamps))

    def netlist(self, states: Sequence[State]) -> str:
        """Every state, a fault and the circuits that are on, as one netlist."""
        lines = ["* lamps", *self._laws()]
        for number, (faults, on) in enumerate(states):
            lines += self._state(f"s{number}_", faults, on)
        lines += [
            ".options itl1=2000 reltol=1e-7 abstol=1e-12 vntol=1e-9 gmin=1e-15",
            ".op",
            ".end",
        ]
        return "\n".join(lines)

    def solved(self, states: Sequence[State]) -> list[dict[str, float]]:
        """The voltage of each node of each state, by ngspice, a few states a run."""
        volts: list[dict[str, float]] = []
        with TemporaryDirectory() as folder:
            for first in range(0, len(states), STATES_A_RUN):
                volts += self._run(states[first : first + STATES_A_RUN], Path(folder))
        return volts

    def _run(self, states: Sequence[State], folder: Path) -> list[dict[str, float]]:
        deck, raw = folder / "lamps.cir", folder / "lamps.raw"
        deck.write_text(self.netlist(states), encoding="utf-8")
        raw.unlink(missing_ok=True)
        done = subprocess.run(
            ["ngspice", "-b", "-r", str(raw), str(deck)],
            capture_output=True,
            text=True,
            check=False,
            env=os.environ | {"SPICE_ASCIIRAWFILE": "1"},
        )
        assert raw.exists(), done.stdout + done.stderr
        volts: list[dict[str, float]] = [{} for _ in states]
        for name, value in _raw_values(raw.read_text(encoding="utf-8")):
            if name.startswith("v("):
                number, _, node = name[3:-1].partition("_")
                volts[int(number)][node] = value
        return volts

    def _laws(self) -> Iterator[str]:
        """Current of a filament and of an LED by its share of the rated voltage."""
        f = self.figures
        power, cold = f["filament_current_power"], f["filament_cold_share"]
        bend = cold ** (1 / (1 - power))
        yield (
            f".func filament(u) {{abs(u) < {bend:.9e} ? u/{cold}"
            f" : sgn(u)*pwr(max(abs(u),{bend:.9e}),{power})}}"
        )
        dark, full = f["led_dark_below"], f["led_full_from"]
        yield f".func led(u) {{u < {dark} ? 0 : (u > {full} ? 1 : (u-{dark})/({full}-{dark}))}}"

    def _state(self, s: str, faults: Sequence[Broken], on: frozenset[str]) -> Iterator[str]:
        f, resistors = self.figures, 0

        def resistor(one: str, other: str, ohms: float) -> Iterator[str]:
            nonlocal resistors
            resistors += 1
            if math.isfinite(ohms):
                yield f"R{s}{resistors} {one} {other} {ohms:.9e}"

        def more(place: str, *kinds: str) -> float:
            """Ohms that these kinds of fault put in series here."""
            return sum(b.ohms for b in faults if b.kind in kinds and b.place == place)

        swap: dict[str, str] = {}
        for one, other in (b.place.split("+") for b in faults if b.kind == "crossed"):
            swap |= {one: other, other: one}
        plug = more("", "corroded_plug")
        source = f"source_volts_{self.wiring['volts']}"
        yield f"V{s} {s}battery 0 {f[source]}"
        yield from resistor(f"{s}battery", f"{s}rail", f["sound_source_ohms"])
        for circuit in self.circuits:
            fed = swap.get(circuit, circuit) in on
            in_way = plug + more(circuit, "open_feed", "poor_feed", "shorted")
            if fed:
                ohms = self._feed_ohms(circuit) + in_way
                yield from resistor(f"{s}rail", f"{s}{circuit}", ohms)
            yield from resistor(f"{s}{circuit}", "0", f["leak_ohms"])
        for circuit, cluster in self.branches:
            end = f"{s}{circuit}.{cluster}"
            cut = more(f"{circuit}@{cluster}", "open_branch")
            yield from resistor(f"{s}{circuit}", end, self._branch_ohms(cluster) + cut)
            yield from resistor(end, "0", f["leak_ohms"])
        for number, lamp in enumerate(self.lamps):
            if more(f"{lamp['housing']}:{lamp['circuit']}", "burnt_out"):
                continue
            end, ground = f"{s}{lamp['circuit']}.{lamp['cluster']}", f"{s}{lamp['cluster']}"
            amps, law = lamp["watts"] / lamp["volts"], "led" if lamp["led"] else "filament"
            across = f"(v({end})-v({ground}))/{lamp['volts']}"
            yield f"B{s}{number} {end} {ground} i={amps:.9e}*{law}({across})"
        wire = f["ground_length"] * self.width_mm / 1e6 * f[f"awg_{f['ground_awg']:.0f}"]
        for cluster in self.clusters:
            bad = more(cluster, "open_ground", "poor_ground")
            ohms = f["sound_ground_ohms"] + wire + bad
            yield from resistor(f"{s}{cluster}", f"{s}frame", ohms)
            yield from resistor(f"{s}{cluster}", "0", f["leak_ohms"])
        main = f["feed_length"] * self.length_mm / 1e6 * f[f"awg_{f['main_ground_awg']:.0f}"]
        main += f["sound_contact_ohms"] + plug + more("", "open_main_ground")
        yield from resistor(f"{s}frame", "0", main)
        yield from resistor(f"{s}frame", "0", f["leak_ohms"])
        for one, other in (b.place.split("+") for b in faults if b.kind == "bridged"):
            yield from resistor(f"{s}{one}", f"{s}{other}", f["bridge_ohms"])

    def _feed_ohms(self, circuit: str) -> float:
        f = self.figures
        pins = (next(c for c in self.wiring["circuits"] if c["id"] == circuit)["pin"] or "").split(
            "+"
        )
        gauges = {pin["pin"]: pin["gauge"] for pin in self.wiring["pins"]}
        named = gauges.get(pins[0], "")
        gauge = named.removesuffix(" AWG") if named.endswith(" AWG") else f"{f['feed_awg']:.0f}"
        wire = f["feed_length"] * self.length_mm / 1e6 * f[f"awg_{gauge}"]
        return (wire + f["sound_contact_ohms"]) / len(pins)

    def _branch_ohms(self, cluster: str) -> float:
        f = self.figures
        side = cluster.endswith("_side")
        reach = (
            f["side_branch_length"] * self.length_mm
            if side
            else f["end_branch_length"] * self.width_mm
        )
        return f["sound_contact_ohms"] + reach / 1e6 * f[f"awg_{f['branch_awg']:.0f}"]

    def faults(self) -> Iterator[Broken]:
        """Every single fault; poor joints as large as makes what hangs on them look worse.

        An LED with a driver carries on until its voltage is far down, so that more is needed.
        """
        rated: dict[tuple[str, str], float] = {}
        led: dict[tuple[str, str], bool] = {}
        for lamp in self.lamps:
            at = lamp["circuit"], lamp["cluster"]
            rated[at] = rated.get(at, 0.0) + lamp["watts"] / lamp["volts"] ** 2
            led[at] = led.get(at, True) and lamp["led"]
            yield Broken("burnt_out", f"{lamp['housing']}:{lamp['circuit']}")
        for circuit, cluster in self.branches:
            yield Broken("open_branch", f"{circuit}@{cluster}")
        for circuit in self.circuits:
            yield Broken("open_feed", circuit)
            yield Broken("shorted", circuit)
            here = {at: siemens for at, siemens in rated.items() if at[0] == circuit}
            for scale in POOR_LED if all(led[at] for at in here) else POOR:
                yield Broken("poor_feed", circuit, scale / sum(here.values()))
        for cluster in self.clusters:
            yield Broken("open_ground", cluster)
            here = {at: siemens for at, siemens in rated.items() if at[1] == cluster}
            heaviest = max(here, key=here.__getitem__)
            for scale in POOR_LED if led[heaviest] else POOR:
                yield Broken("poor_ground", cluster, scale / here[heaviest])
        yield Broken("open_main_ground")
        by_circuit = [sum(s for at, s in rated.items() if at[0] == c) for c in self.circuits]
        scale = 1.5 if all(led.values()) else 0.5
        yield Broken("corroded_plug", "", scale / max(by_circuit))
        for one, other in combinations(sorted(self.circuits), 2):
            yield Broken("crossed", f"{one}+{other}")
            yield Broken("bridged", f"{one}+{other}")

    def light(
        self, volts: Mapping[str, float], faults: Sequence[Broken]
    ) -> dict[str, dict[str, float]]:
        """Light of each lamp at these voltages, by housing and circuit, 1 at its rated voltage."""
        f = self.figures
        light: Light = {}
        for lamp in self.lamps:
            at = f"{lamp['housing']}:{lamp['circuit']}"
            whole = all((b.kind, b.place) != ("burnt_out", at) for b in faults)
            end = volts[f"{lamp['circuit']}.{lamp['cluster']}"]
            share = (end - volts[lamp["cluster"]]) / lamp["volts"]
            if lamp["led"]:
                dark, full = f["led_dark_below"], f["led_full_from"]
                shines = min(max((share - dark) / (full - dark), 0.0), 1.0)
            else:
                shines = abs(share) ** f["filament_light_power"]
            light.setdefault(lamp["housing"], {})[lamp["circuit"]] = shines * whole * lamp["watts"]
        return light

    def looks(
        self,
        light: Light,
        usual: Light,
        on: frozenset[str],
    ) -> dict[str, str]:
        """What a good eye says of each housing: lit, dim or dark.

        Against what it gives in a sound vehicle; of one that ought to be dark, against what its
        weakest lamp gives.
        """
        seen = {}
        for housing, of_lamps in light.items():
            own = on & of_lamps.keys()
            weakest = min(x["watts"] for x in self.lamps if x["housing"] == housing)
            against = sum(usual[housing].values()) if own else weakest
            share = sum(of_lamps.values()) / against
            seen[housing] = "lit" if share >= LIT else "dim" if share >= DIM else "dark"
        return seen


POOR = (0.45, 0.9)
POOR_LED = (1.2, 3.0)
"""Ohms in series with lamps, as a multiple of their hot resistance."""


def _raw_values(text: str) -> Iterator[tuple[str, float]]:
    """Names and values of an ASCII raw file of one operating point."""
    head, _, body = text.partition("Values:\n")
    _, _, table = head.partition("Variables:\n")
    names = [line.split()[1] for line in table.splitlines() if line.strip()]
    values = body.split()[1 : 1 + len(names)]
    yield from zip(names, map(float, values), strict=True)
