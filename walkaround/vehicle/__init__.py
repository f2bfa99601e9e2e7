"""What a vehicle is, as its file says it: kind, size, wiring, brakes, VIN, outline.

Nothing here knows which rules a vehicle must meet. From outside only `vin_problem` is needed.
"""

from walkaround.vehicle.vin import vin_problem as vin_problem
