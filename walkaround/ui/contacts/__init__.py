"""The screens for checking a lamp cable and the socket of a tow vehicle."""
