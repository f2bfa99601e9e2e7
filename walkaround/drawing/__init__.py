"""Pictures as SVG: the plan of a vehicle, a connector's face, an air hold's chart, parts.

Places, shapes and words are computed here, in px, so that the same picture can serve a screen, a
record and a print.
"""
