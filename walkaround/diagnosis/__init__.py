"""Likely causes ranked by what is known, and the next check that tells them apart best.

`causes` (lamps) and `leaks` (air) each have a model of what a fault does. What they share is here:
ranking faults by how well they explain what was seen, grouping those that look alike, and choosing
the next check by what it tells for the minutes it takes. A fault comes in variants; whatever is
known has a probability under each variant, and the last variant is a vehicle without a fault.
"""
