# Números, listas y lugares, como otros mensajes los necesitan.

# Entre los dos extremos de un rango: "80 a 90 psi", "80 y 90 psi".
range-link = { $link ->
    [to] a
    [and] y
   *[or] o
 }

place-in-file = { $where }, { $key }

# Qué está mal en algo que alguien escribió, y cómo corregirlo.
problem = { $place }: { $what }; { $mend }.

# Un número con su unidad; las de un manómetro o una regla van en las unidades de quien lee.
unit-m = { $n } m
unit-mm = { $n } mm
unit-ft = { $n } ft
unit-in = { $n } in
unit-kg = { $n } kg
unit-lb = { $n } lb
unit-v = { $n } V
