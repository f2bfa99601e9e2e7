"""Flat line drawings of parts that a step looks at or measures: gladhand, chamber, slack."""
