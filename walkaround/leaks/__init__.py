"""Which part loses air, from which gauge fell in which hold and what was heard where.

A small model of the plumbing says who feeds what while the brakes are released, applied, or without
red; each part that may leak is put into it, and ranked by how well that fits what gauges and ears
told. What an air hold is worth is judged in `airhold`, which knows no vehicle. Causes of lamps are
in `causes`; how causes are ranked and told apart is the same for both, in `diagnosis`.
"""
