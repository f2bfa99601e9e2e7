"""The disk: durable writes, places, the log."""
