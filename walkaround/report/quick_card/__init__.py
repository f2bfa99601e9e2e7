"""The printed card: the walk of one vehicle on one sheet, for a pocket or the cab's door."""
