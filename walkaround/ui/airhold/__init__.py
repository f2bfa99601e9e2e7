"""The screens of an air hold: while it runs, as a reading is entered, and its result."""
