"""The signature lines of the page."""
