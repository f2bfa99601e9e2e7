"""What lies where in a picture."""
