# Respuestas a un paso, razones para no revisar, y lo que se puede ver mal.

answer-ok = Bien
answer-defect = Defecto
answer-missing = Falta
answer-not-fitted = No lleva
answer-not-checked = Sin revisar
# El visto bueno de un paso en que se hace algo.
answer-done = Hecho

reason-no-power = Sin corriente
reason-no-air = Sin aire
reason-cannot-reach = No se alcanza o no se ve
reason-in-the-way = Estorba carga o mugre
reason-no-tool = Sin herramienta o pieza
reason-no-time = Ahora no hay tiempo
reason-other = Otra razón

# Lo que se vio de una luz o de una rueda: verbos, que van con cosas de cualquier género.
seen-of-item = { $item }: { $seen }
seen-dark = no prende
seen-dim = alumbra poco
seen-too-bright = alumbra demasiado
seen-cracked = se rajó
seen-dirty = tiene mugre
seen-flickers = tiembla
seen-steady = no parpadea y debe
# Bien son de 60 a 120 por minuto.
seen-flashes-fast = parpadea muy rápido (más de 120 por minuto)
seen-flashes-slow = parpadea muy lento (menos de 60 por minuto)
seen-flashing = parpadea y no debe
seen-pulses = pulsa con la luz de giro
seen-glows = brilla apenas
# De una luz de LED.
seen-some-out = algunos diodos no prenden
seen-stays-on = no se apaga
seen-wrong-lamp = prende y no debe
seen-wrong-colour = otro color
seen-built-so = en otro cable, así de fábrica: no es falla
seen-broken = se rompió
seen-loose = no está firme
seen-missing = falta
seen-not-fitted = no lleva
seen-no-movement = no se mueve
seen-leak = fuga de aire
seen-worn = no llega a su límite
seen-differs = no es igual al otro lado
seen-dead = no funciona
seen-other = otra cosa
