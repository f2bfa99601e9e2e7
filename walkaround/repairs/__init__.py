"""What was done about a defect, and what has to be looked at again before the repair is proven.

A repair may change more than the defect itself: a new ground changes every lamp on it; a new
chamber, the air hold and the strokes of its axle. What it can have changed follows from the wiring
and from which parts share air.
"""
