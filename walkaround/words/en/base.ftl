# Numbers, lists and places, as other messages need them.

# Between the two ends of a range of quantities: "80 to 90 psi", "80 and 90 psi".
range-link = { $link ->
    [to] to
    [and] and
   *[or] or
 }

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
unit-v = { $n } V
