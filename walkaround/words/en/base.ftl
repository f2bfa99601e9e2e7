# Numbers, lists and places, as other messages need them.

place-in-file = { $where }, { $key }

# What is wrong with something that a person wrote, and how to put it right.
problem = { $place }: { $what }; { $mend }.
