"""What the answers of a walk tell about its lamps and its air, as evidence for likely causes."""
