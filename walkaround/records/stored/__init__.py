"""How one file of tables is kept: every write whole, and on the disk when it returns."""
