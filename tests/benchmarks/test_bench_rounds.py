"""What planning the rounds costs, against the number of circuits and of switches."""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import date
from functools import partial
from statistics import median
from time import perf_counter

from benchmarks.conftest import Rounds
from support.switchgear import circuits, shipped_sources, source, switch

from walkaround.disk.locations import shipped
from walkaround.lamps.required_lamps import Lamp
from walkaround.lamps.wiring import Wiring
from walkaround.library.load import load_library
from walkaround.plan.lamp_steps import lamp_walk
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.rounds.plan_rounds import plan_rounds
from walkaround.rounds.power_source import PowerSource
from walkaround.rules.checklist import SPOTS

LIBRARY = load_library(shipped(), today=date(2026, 11, 25))

CIRCUITS = (
    "marker", "tail", "left_turn", "right_turn", "stop", "backup", "blackout_marker",
    "blackout_stop", "left_stop_turn", "right_stop_turn", "headlamp", "parking", "blackout_drive",
    "fog", "tail_left", "tail_right",
)  # fmt: skip


def median_ms(work: Callable[[], object], times: int) -> float:
    costs = []
    for _ in range(times):
        start = perf_counter()
        work()
        costs.append((perf_counter() - start) * 1000)
    return median(costs)


def overlapping(switches: int, seed: int) -> PowerSource:
    """Switches that each light one to six circuits, which others light too."""
    chance = random.Random(seed)
    tables = []
    for number in range(switches):
        some = chance.sample(CIRCUITS, chance.randint(1, 6))
        looks = {id_: "flashing" if "turn" in id_ else "steady" for id_ in some}
        tables.append(switch(f"s{number}", on={"lights": looks}))
    return source(tables)


def test_cost_against_circuits_that_are_switched_alone(rounds: Rounds) -> None:
    box = shipped_sources()["box"]
    print("\ncircuits switched alone")
    first = 0.0
    for count in range(4, 17, 2):
        lamps = circuits(*[f"lamp_x{n}" for n in range(count)])
        cost = median_ms(partial(plan_rounds, box, lamps), rounds(5, 1))
        first = first or cost
        settings = len(plan_rounds(box, lamps).settings)
        print(f"  {count:2} circuits {settings} settings {cost:7.2f} ms  x{cost / first:.1f}")


def test_cost_against_switches_that_overlap(rounds: Rounds) -> None:
    lamps = circuits(*CIRCUITS)
    print("\nswitches that overlap, 16 circuits, median and worst")
    first = 0.0
    for count in range(2, 9):
        costs = [
            median_ms(partial(plan_rounds, overlapping(count, seed), lamps), times=1)
            for seed in range(rounds(10, 2))
        ]
        first = first or median(costs)
        ratio = median(costs) / first
        print(
            f"  {count} switches {median(costs):7.2f} ms  x{ratio:.1f}  worst {max(costs):.2f} ms"
        )


def test_cost_of_sixty_lamps_on_sixteen_circuits(rounds: Rounds) -> None:
    lamps = circuits(*CIRCUITS)
    sixty = [
        Lamp(
            id=f"lamp_{n}", kind="other", name=f"lamp {n}", colour="red", place="rear_left",
            housing=f"housing_{n}", x_mm=200.0 * n, y_mm=0.0, spot=SPOTS[n % 4], required=True,
            what="", why="", height="", source="made for tests", provenance="memory", rule="r",
        )
        for n in range(60)
    ]  # fmt: skip
    wiring = Wiring(
        volts=12,
        connector=LIBRARY.connectors["sae_j560"],
        circuits=tuple(lamps),
        circuit_of={lamp.id: lamps[n % len(lamps)].id for n, lamp in enumerate(sixty)},
        cluster_of={lamp.id: "rear_left" for lamp in sixty},
        unused=(),
    )
    print("\n60 lamps on 16 circuits, every step (aim: under 50 ms)")
    for id_, made in shipped_sources().items():
        plan = partial(lamp_walk, sixty, [], wiring, made, together=True)
        print(f"  {id_:7} {len(plan().steps)} steps: {median_ms(plan, rounds(5, 1)):.2f} ms")


def test_cost_of_planning_a_shipped_vehicle(rounds: Rounds) -> None:
    print("\nwhole walks of shipped vehicles (aim: under 50 ms)")
    for vehicle in LIBRARY.vehicles:
        for power in powers_for(vehicle, LIBRARY.power_sources):
            plan = partial(plan_walk, vehicle, LIBRARY.rules, power=power)
            cost = median_ms(plan, rounds(5, 1))
            print(f"  {vehicle.id:22} {power:7} {len(plan().steps)} steps: {cost:.1f} ms")
