"""Practice on a simulated vehicle: faults put in, what each step shows, and what was missed.

What its lamps and gauges show comes from the same network and plumbing that likely causes are
found in, so whoever reads the picture right is right about a real vehicle too.
"""
