"""Power sources, and the fewest rounds."""
