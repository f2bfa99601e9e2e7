"""A double check: how its second walk begins, and what comes out once both are closed."""
