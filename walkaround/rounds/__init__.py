"""Power sources, and the fewest rounds of a vehicle that show every circuit.

Each setting of the switches shows some circuits; the fewest settings are sought that show all of
them, and tell every two of them apart as far as the source can.
"""
