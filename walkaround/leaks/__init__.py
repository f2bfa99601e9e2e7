"""Which part loses air, from which gauge fell in which hold and what was heard where.

A small model of the plumbing says who feeds what while the brakes are released, applied, or without
red; each part that may leak is put into it, and ranked by how well that fits what gauges and ears
told. What an air hold is worth is judged in `airhold`, which knows no vehicle; lamps have causes of
their own in `causes`, which is as full as a folder should be. How causes are weighed and told apart
is one for both, in `weighing`.
"""
