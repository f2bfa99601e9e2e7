"""Errors, messages, units and moments, which every other package uses; it imports none of them.

The models that are read from files people write start here too (`toml_model`), with the checks
that every such file goes through (`checks`).
"""
