"""What the answers of a walk tell of likely causes: of its lamps, and of its air."""
