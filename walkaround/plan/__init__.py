"""From a vehicle and checklists to the plan of one walk: its steps, in the order that is safe.

What is asked follows from the vehicle. The order is what keeps people whole: chocks before air, and
no valve moved while somebody is under the vehicle.
"""
