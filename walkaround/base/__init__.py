"""What everything stands on: errors, units, moments, texts."""
