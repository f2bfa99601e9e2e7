"""What likely causes cost, and how many things are done until one cause is left."""

from __future__ import annotations

import random
from math import log2
from statistics import mean, median
from time import process_time

from benchmarks.conftest import Rounds
from support.aircases import RIGS, TABLES, until_told
from support.airtruth import HOLES, holes_of
from support.lampcases import VEHICLES, study, study_of_vehicle
from support.lampsteps import seen_with, until_one_is_left

from walkaround.causes.faults import variants_of
from walkaround.causes.study import Study, lamp_findings
from walkaround.leaks.ranking import AirEvidence, HoldLosses, MeasuredLoss
from walkaround.leaks.study import air_findings, air_study_of


def test_cost_against_filaments_and_circuits(rounds: Rounds) -> None:
    print("\nlikely causes and what to do next, time of the processor (aim: under 300 ms)")
    for id_ in sorted(VEHICLES, key=lambda id_: len(study(id_).network.loads)):
        network = study(id_).network
        evidence = seen_with(study(id_), 0)
        costs, more = [], []
        for _ in range(rounds(9, 1)):
            of, start = study_of_vehicle(VEHICLES[id_]), process_time()
            lamp_findings(of, evidence)
            costs.append((process_time() - start) * 1000)
            start = process_time()
            lamp_findings(of, evidence)
            more.append((process_time() - start) * 1000)
        faults = len({variant.fault for variant in variants_of(network)})
        print(
            f"  {id_:22} {len(network.loads):2} filaments {len(network.circuits):2} circuits"
            f" {faults:3} faults: {median(costs):5.0f} ms, one look more {median(more):5.0f} ms"
        )
        if rounds(2, 1) == 2:
            assert median(costs) < 300


def test_cost_of_lost_air_against_ways_of_leaking(rounds: Rounds) -> None:
    print("\nlikely causes of lost air, time of the processor (aim: under 300 ms)")
    for id_, source in RIGS:
        costs = []
        for _ in range(rounds(9, 1)):
            start = process_time()
            of = air_study_of(VEHICLES[id_], TABLES, source)
            gauge = of.plumbing.gauges[0]
            held = (
                HoldLosses("released", {gauge: MeasuredLoss(5.0, 0.5)}),
                HoldLosses("applied", {}),
            )
            air_findings(of, AirEvidence(held, {"released": ("tank",)}))
            costs.append((process_time() - start) * 1000)
        ways, parts = len(of.plumbing.ways), len(set(of.variants.parts))
        print(f"  {id_:22} {source:8} {parts:2} parts {ways:2} ways: {median(costs):5.0f} ms")
        if rounds(2, 1) == 2:
            assert median(costs) < 300


def test_things_to_do_until_one_part_that_leaks_is_left(rounds: Rounds) -> None:
    """After both holds, nobody having listened; beside looking at one place after another."""
    print("\nthings to do until one part that leaks is left")
    for id_, source in RIGS:
        cases = [(hole, size) for hole in holes_of(VEHICLES[id_], source) for size in HOLES]
        drawn = random.Random(7).sample(cases, min(rounds(60, 4), len(cases)))
        done, places = zip(*(until_told(id_, source, *each) for each in drawn), strict=True)
        right = mean(place == 0 for place in places)
        spots = len({hole.heard for hole, _ in cases})
        print(
            f"  {id_:22} {source:8} {mean(done):.2f} of {len(drawn)} leaks, at most {max(done)};"
            f" {spots} places; then first in {100 * right:.0f} %"
        )
        assert mean(done) <= spots / 2


def test_things_to_do_until_one_cause_is_left_beside_halving_the_wiring(rounds: Rounds) -> None:
    """Halving by hand takes log2 of the joints: contacts, splices, sockets and grounds."""
    print("\nthings to do until one cause is left")
    for id_ in sorted(VEHICLES):
        of, chance = study(id_), random.Random(7)
        whole = [n for n, v in enumerate(variants_of(of.network)) if v.how == "whole"]
        drawn = chance.sample(whole, min(rounds(120, 8), len(whole)))
        counts = [len(until(of, variant, chance)) for variant in drawn]
        by_hand = log2(joints(of))
        print(
            f"  {id_:22} {mean(counts):.2f} of {len(counts)} faults, at most {max(counts)};"
            f" halving {joints(of)} joints {by_hand:.2f}: x{mean(counts) / by_hand:.2f}"
        )
        assert mean(counts) <= by_hand / 2


def until(of: Study, variant: int, chance: random.Random) -> list[str]:
    return until_one_is_left(of, variant, chance)[0]


def joints(of: Study) -> int:
    """Contact and first splice of each circuit, splice of each branch, sockets, grounds."""
    network = of.network
    own = 2 * len(network.circuits) + len(network.branches) + len(network.loads)
    return own + len(network.clusters) + 1
