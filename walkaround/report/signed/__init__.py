"""The lines of the page on which people sign: what for, who, and when."""
