"""How numbers, units and short forms are said, a module of rules for each language."""
