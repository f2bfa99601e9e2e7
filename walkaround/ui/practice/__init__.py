"""Practice: the vehicle on the screen, where it begins, and what came of it."""
