"""Who is let in."""
