"""What each contact of a lamp cable, or of a tow vehicle's socket, gets.

Checked before the vehicle behind is blamed: a cable that has two contacts swapped looks like a
trailer that has. What was seen at each contact goes in, what is wrong comes out.
"""
