"""What everything else stands on: errors, messages, units, moments; it imports nothing of ours.

The models that are read from files people write start here too (`toml_model`), with the checks
that every such file goes through (`checks`).
"""
