"""A vehicle and checklists to the plan of one walk."""
