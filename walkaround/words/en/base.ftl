# Numbers, lists and places, as other messages need them.

place-in-file = { $where }, { $key }

# What is wrong with something that a person wrote, and how to put it right.
problem = { $place }: { $what }; { $mend }.

# A number with its unit; a gauge's or a tape's own are shown in the reader's units instead.
unit-m = { $n } m
unit-mm = { $n } mm
unit-ft = { $n } ft
unit-in = { $n } in
unit-kg = { $n } kg
unit-lb = { $n } lb
unit-l = { $n } L
unit-v = { $n } V
