"""A vehicle as somebody standing beside it sees it: an end or a side, with its lamps in place."""
