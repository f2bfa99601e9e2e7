# Valores medidos: qué se leyó, contra qué límite, y qué resulta.

judged-within = dentro del límite
judged-over = pasa del límite
judged-under = no llega al límite
judged-unbounded = anotado
judged-unmeasured = sin medir

bound-at-least = al menos { $bound }
bound-more-than = más de { $bound }
bound-at-most = como máximo { $bound }
bound-less-than = menos de { $bound }
bound-short-at-least = mín. { $bound }
bound-short-more-than = más de { $bound }
bound-short-at-most = máx. { $bound }
bound-short-less-than = menos de { $bound }

# Cuánto cayó una presión, en por ciento de lo que era.
measured-drop = caída { $percent } %
# "68 psi, al menos 60 psi: dentro del límite"
measured-judged = { $read }: { $judged }
measured-of-value = { $name } { $judged }
measured-outcome = { $outcome }.
measured-next = Ahora { $name }.
measured-limit = Límite: { $limit }.
measured-no-limit = No se conoce límite. El valor solo se anota.
measured-no-limit-why = No se conoce límite: { $why }. El valor solo se anota.
# Carreras de varilla en los dos extremos de un eje.
strokes-apart = Eje { $axle }: izquierda { $left }, derecha { $right }, diferencia { $difference }.
strokes-far-apart = Eje { $axle }: izquierda { $left }, derecha { $right }, diferencia { $difference }. Es más de { $most }: busque la causa (práctica común, sin fuente).

# Cómo es un manómetro, y si todos estaban en cero, para el registro.
gauge-told = manómetro { $gauge }: { $unit }, rayas de { $step }
gauge-told-crossing = manómetro { $gauge }: { $unit }, rayas de { $step }, se toca cuando la aguja cruza una raya
gauges-zero = cero visto a { $altitude }
gauges-not-zero = no en cero
# Manómetros que este recorrido no preguntó, porque ya se conocían.
gauges-remembered = Manómetros como se recordaban, su cero visto antes ese día: { $gauges }; el lugar a { $altitude } sobre el mar.
