"""What is wrong, from what was seen: a small network of lamps and wires, and its single faults.

Every single fault that the wiring of a vehicle could have is put into the network, how each
housing would then look is worked out, and the faults are ranked by how well that fits what was
seen. The next thing to do is the one expected to narrow the list most for its effort.
"""
