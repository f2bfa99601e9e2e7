"""The screens of a double check: how its second walk begins, and both walks compared."""
