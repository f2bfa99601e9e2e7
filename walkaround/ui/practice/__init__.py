"""The screens of practice: its start, the simulated vehicle at each step, and the marks."""
