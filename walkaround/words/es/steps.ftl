# Lo que se muestra y se dice de un paso. El lugar, cómo se prenden los circuitos, lo que debe verse y
# para qué es una luz son frases propias, dichas una tras otra.

place-front = Adelante.
place-right-side = Lado derecho.
place-rear = Atrás.
place-left-side = Lado izquierdo.
place-cab = En la cabina.
place-source = En la fuente.

# El título de un paso, dicho donde el paso no tiene palabras al grano.
prompt-title = { $title }.

# Lo que debe verse: frases, como en "prendidas: ambas luces de cola, luz de placa; parpadea: luz de
# giro izquierda; lo demás apagado".
prompt-seen = { CAPITAL($clauses) }.
prompt-lit = prendido: { $lamps }
prompt-flashing = parpadea: { $lamps }
# Señales que parpadean en una caja con luces que quedan fijas.
prompt-flashing-over = { $count ->
    [one] parpadea: { $signals }, y queda fija { $lamps }
   *[other] parpadea: { $signals }, y quedan fijas { $lamps }
 }
prompt-rest-dark = lo demás apagado
prompt-all-dark = todo apagado
prompt-no-flasher = Una caja sin destellador la prende sin parpadear: también está bien.
prompt-abs-stand = Mire la luz del ABS.
prompt-abs-mirror = Busque la luz del ABS en el espejo.
prompt-abs-short = Prende y luego se apaga.
prompt-abs-brisk = Prende y se apaga.
prompt-abs-long = Prende unos segundos. Si nunca prende, o se queda prendida, es defecto. ¿No la vio? Apague y prenda otra vez. Algunas quedan prendidas hasta que el remolque se mueve, para borrar una falla guardada: anótelo.
prompt-reflectors = { $count ->
    [one] { CAPITAL($things) }: ¿está, sin daño ni mugre?
   *[other] { CAPITAL($things) }: ¿está todo, sin daño ni mugre?
 }
prompt-reflectors-brisk = { CAPITAL($things) }.
prompt-anything-else = ¿Algo más?
# Se muestra, no se dice, de un contacto cuyo uso está en duda antes de alimentarlo; $why es una frase.
prompt-meter-first = Mida primero: { $why }.

# Se dice cuando todos los pasos tienen respuesta.
summary-all-checked = Todos los pasos tienen respuesta. { $defects }. Repáselo y cierre el registro.
summary-some-left = Todos los pasos tienen respuesta. { $defects }. Sin revisar: { $left }. Repáselo y cierre el registro.
# Y esto, donde una reparación pudo cambiar lo que antes estaba bien.
summary-due-said = { $count ->
    [one] Un paso que mirar otra vez después de una reparación.
   *[other] { CAPITAL(SPELLED($count)) } pasos que mirar otra vez después de una reparación.
 }
open-defects = { $count ->
    [0] Ningún defecto abierto
    [one] { $count } defecto abierto
   *[other] { $count } defectos abiertos
 }

# Varias luces de una clase: "ambas luces de cola", "tres luces de identificación".
lamps-both = { FIRST($lamps) ->
    [luces] ambas
   *[reflectores] ambos
 } { $lamps }
lamps-counted = { SPELLED($count) } { $lamps }
lamp-plural = { FIRST($lamp) ->
    [luz] luces { REST($lamp) }
    [reflector] reflectores
    [faro] faros
   *[other] { $lamp }
 }
