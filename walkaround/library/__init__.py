"""Files that people write: checklists, vehicles, connectors, power sources; read and validated.

One bad file never hides the others, and each problem says what is wrong, where, and how to mend
it. The crew's own vehicles are saved here too; they are validated before they are written.
"""
