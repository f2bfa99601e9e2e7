"""Which lamps a vehicle must have, and how they are fed: circuits, connectors, bulbs.

Published rules and tables of contacts are rows of files; this package finds the rows that hold for
a vehicle, and how its connector feeds the lamps that it must have.
"""
