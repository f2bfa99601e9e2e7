"""Voltages of a network in many states at once, by Newton's method with halved steps.

A filament's current goes as a power of its voltage, down to its cold resistance. An LED with a
driver takes its current down to a voltage, lets go below, and takes none backward. All of them
are monotone, so each state has one solution. The end of a branch touches nothing but its circuit
and its cluster, so it is eliminated by hand and the systems stay small.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from walkaround.causes.network import Flags, Floats, Network, Numbers, States

_MOST_STEPS = 100
_MOST_HALVINGS = 8
_AMPS_LEFT = 1e-10
"""A state is solved when no node has more current than this unaccounted for, A."""


class Solution(NamedTuple):
    """The readings of a meter in each state, volts against the source's own ground.

    Attributes:
        nodes: the rail, each circuit, each cluster, the main ground, [state, node].
        ends: the end of each branch, where its lamps hang, [state, branch].
        light: of each load, as a share of what it gives at its design voltage, [state, load].
        amps: what each load takes, [state, load].
        feeds: what the source gives into each circuit, A, [state, circuit].
    """

    nodes: Floats
    ends: Floats
    light: Floats
    amps: Floats
    feeds: Floats


class _Point(NamedTuple):
    """Voltages, the currents they leave unaccounted for, and how steep the lamps' currents are."""

    nodes: Floats
    ends: Floats
    at_nodes: Floats
    at_ends: Floats
    slope: Floats

    @property
    def worst(self) -> Floats:
        at_nodes, at_ends = np.abs(self.at_nodes), np.abs(self.at_ends)
        return np.asarray(np.maximum(at_nodes.max(axis=1), at_ends.max(axis=1)))

    @property
    def size(self) -> Floats:
        return np.asarray((self.at_nodes**2).sum(axis=1) + (self.at_ends**2).sum(axis=1))


class _System:
    """The equations of some states of one network."""

    def __init__(self, network: Network, states: States) -> None:
        self.network, self.states = network, states
        self.leak = 1 / network.figures["leak_ohms"]
        self.branch = 1 / states.branch_ohms
        self.wires, self.fed = _wires(network, states, self.leak)
        first_cluster = 1 + len(network.circuits)
        self.circuit_at = np.array([1 + c for c, _ in network.branches], dtype=np.intp)
        self.cluster_at = np.array([first_cluster + j for _, j in network.branches], dtype=np.intp)
        self.of_branch = np.zeros((len(network.loads), len(network.branches)))
        self.of_branch[np.arange(len(network.loads)), network.branch_of] = 1.0
        self.from_circuit = np.eye(network.nodes)[self.circuit_at]
        self.into_cluster = np.eye(network.nodes)[self.cluster_at]

    def start(self) -> _Point:
        """Tell what is fed has the source's voltage, nothing else has any."""
        nodes = np.zeros((len(self.states.on), self.network.nodes))
        nodes[:, 0] = self.network.volts
        nodes[:, 1 : 1 + len(self.network.circuits)] = self.network.volts * self.states.on
        return self.point(nodes, nodes[:, self.circuit_at] * (self.branch > 0))

    def across(self, nodes: Floats, ends: Floats) -> Floats:
        """Return the voltage of each load."""
        return (ends - nodes[:, self.cluster_at])[:, self.network.branch_of]

    def point(self, nodes: Floats, ends: Floats) -> _Point:
        amps, slope = currents(self.network, self.across(nodes, ends))
        burning = self.states.burning
        drawn_amps = (amps * burning) @ self.of_branch
        into = self.branch * (nodes[:, self.circuit_at] - ends)
        at_nodes = (self.wires @ nodes[:, :, None])[:, :, 0] - self.fed
        at_nodes += into @ self.from_circuit - drawn_amps @ self.into_cluster
        at_ends = drawn_amps + self.leak * ends - into
        return _Point(nodes, ends, at_nodes, at_ends, (slope * burning) @ self.of_branch)

    def move(self, at: _Point) -> tuple[Floats, Floats]:
        """Return the step of Newton's method, at nodes and at ends of branches."""
        g, s = self.branch, at.slope
        steep = g + s + self.leak
        c, j = self.circuit_at, self.cluster_at
        jacobian, right = self.wires.copy(), -at.at_nodes
        for place, (one, other) in enumerate(zip(c, j, strict=True)):
            mixed = g[:, place] * s[:, place] / steep[:, place]
            jacobian[:, one, one] += g[:, place] * (1 - g[:, place] / steep[:, place])
            jacobian[:, other, other] += s[:, place] * (1 - s[:, place] / steep[:, place])
            jacobian[:, one, other] -= mixed
            jacobian[:, other, one] -= mixed
        right -= (g * at.at_ends / steep) @ self.from_circuit
        right -= (s * at.at_ends / steep) @ self.into_cluster
        move: Floats = np.asarray(np.linalg.solve(jacobian, right[:, :, None])[:, :, 0], float)
        return move, (g * move[:, c] + s * move[:, j] - at.at_ends) / steep


def solve(network: Network, states: States) -> Solution:
    """Find the voltages of every state.

    Raises:
        ArithmeticError: a state was not solved; no sound table of figures makes one such.
    """
    count = len(states.on)
    nodes = np.zeros((count, network.nodes))
    ends = np.zeros((count, len(network.branches)))
    unsolved: Numbers = np.arange(count)
    system = _System(network, states)
    at = system.start()
    for _ in range(_MOST_STEPS):
        is_solved = at.worst < _AMPS_LEFT
        nodes[unsolved[is_solved]], ends[unsolved[is_solved]] = (
            at.nodes[is_solved],
            at.ends[is_solved],
        )
        if is_solved.all():
            break
        if is_solved.any():
            unsolved = unsolved[~is_solved]
            system = _System(network, states.some(unsolved))
            at = _Point(*(field[~is_solved] for field in at))
        at = _damped_step(system, at)
    else:
        raise ArithmeticError("a network was not solved")
    across = _System(network, states).across(nodes, ends)
    amps, _ = currents(network, across)
    fed = nodes[:, :1] - nodes[:, 1 : 1 + len(network.circuits)]
    return Solution(
        nodes,
        ends,
        light=_light(network, across) * states.burning,
        amps=amps * states.burning,
        feeds=states.on * fed / states.feed_ohms,
    )


def currents(network: Network, volts: Floats) -> tuple[Floats, Floats]:
    """Give the current of each load at these voltages, A, and its slope, A/V; [state, load]."""
    figures = network.figures
    share = np.abs(volts) / network.rated_volts
    power, steepest = figures["filament_current_power"], 1 / figures["filament_cold_share"]
    hot = share > steepest ** (1 / (power - 1))
    of_hot = np.where(hot, share, 1.0) ** (power - 1)
    rise = np.where(hot, of_hot, steepest)
    filament = np.sign(volts) * share * rise
    filament_slope = np.where(hot, power * of_hot, steepest)
    full, dark = figures["led_full_from"], figures["led_dark_below"]
    forward = volts / network.rated_volts
    driven = np.clip((forward - dark) / (full - dark), 0.0, 1.0)
    driven_slope = ((forward > dark) & (forward < full)) / (full - dark)
    led: Flags = network.led
    return (
        network.amps * np.where(led, driven, filament),
        network.amps / network.rated_volts * np.where(led, driven_slope, filament_slope),
    )


def _light(network: Network, volts: Floats) -> Floats:
    amps, _ = currents(network, volts)
    filament = (np.abs(volts) / network.rated_volts) ** network.figures["filament_light_power"]
    return np.where(network.led, amps / network.amps, filament)


def _damped_step(system: _System, at: _Point) -> _Point:
    """Take a step; where it would lead no nearer, half of it, and so on."""
    move, move_ends = system.move(at)
    share = np.ones(len(at.nodes))
    for _ in range(_MOST_HALVINGS):
        stepped = system.point(
            at.nodes + share[:, None] * move, at.ends + share[:, None] * move_ends
        )
        worse = stepped.size > at.size
        if not worse.any():
            break
        share = np.where(worse, share / 2, share)
    return stepped


def _wires(network: Network, states: States, leak: float) -> tuple[Floats, Floats]:
    """Return conductances between nodes, without branches and lamps, and the current fed in."""
    count, circuits = len(states.on), len(network.circuits)
    matrix = np.zeros((count, network.nodes, network.nodes))
    places = np.arange(network.nodes)
    matrix[:, places, places] = leak
    matrix[:, 0, 0] += 1 / network.source_ohms
    main = network.nodes - 1
    matrix[:, main, main] += 1 / states.main_ohms

    every, rail = np.arange(count), np.zeros(count, dtype=np.intp)
    ground = np.full(count, main)

    def tie(rows: Numbers, one: Numbers, other: Numbers, siemens: Floats) -> None:
        matrix[rows, one, one] += siemens
        matrix[rows, other, other] += siemens
        matrix[rows, one, other] -= siemens
        matrix[rows, other, one] -= siemens

    for circuit in range(circuits):
        feed = states.on[:, circuit] / states.feed_ohms[:, circuit]
        tie(every, rail, rail + 1 + circuit, feed)
    for cluster in range(len(network.clusters)):
        at = rail + 1 + circuits + cluster
        tie(every, at, ground, 1 / states.ground_ohms[:, cluster])
    bridged = np.flatnonzero(states.bridge[:, 0] >= 0)
    if len(bridged):
        one, other = 1 + states.bridge[bridged].T
        touching = np.full(len(bridged), 1 / network.figures["bridge_ohms"])
        tie(bridged, one, other, touching)
    fed = np.zeros((count, network.nodes))
    fed[:, 0] = network.volts / network.source_ohms
    return matrix, fed
