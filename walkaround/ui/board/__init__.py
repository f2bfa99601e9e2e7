"""The screens of a shop's walks together: the board, and how a vehicle's values went."""
