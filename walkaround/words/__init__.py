"""What is shown and said."""
