"""What a vehicle is."""

from walkaround.vehicle.vin import vin_problem as vin_problem
