"""A vehicle as it is seen from where one stands: an end or a side, its lamps where they are."""
