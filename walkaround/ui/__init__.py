"""What the phone shows: components, one screen a file; no rule lives here."""
