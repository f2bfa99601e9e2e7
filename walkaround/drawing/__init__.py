"""What lies where in a picture: the plan of a vehicle, a connector's face, an air hold's chart.

Only places, shapes and words are worked out here, in px, so that the same picture can serve a
screen, a record and a print.
"""
