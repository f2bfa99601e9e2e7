"""Pictures as controls: the plan of a vehicle, a connector's face, the chart of an air hold.

What lies where is worked out by `walkaround.drawing`; here it becomes something that Flet shows,
with a spoken label.
"""
