"""What each contact of a lamp cable, or of a tow vehicle's socket, gets.

They are checked before the vehicle behind is blamed: a cable with two contacts swapped looks like
a trailer with two contacts swapped. What was seen at each contact goes in, what is wrong comes
out.
"""
