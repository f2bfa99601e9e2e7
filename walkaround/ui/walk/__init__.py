"""The screens around the steps of a walk: its start, its menu, the cab, the summary."""
