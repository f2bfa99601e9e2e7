"""What people answer for by name, on the page."""
