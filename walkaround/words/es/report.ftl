# La página de un recorrido que se entrega, en papel o como archivo.

# Qué es; se repite al pie de cada hoja.
report-about = Luces y frenos de aire: lo revisado, lo hallado y lo no revisado. No es una inspección periódica (49 CFR 396.17).
# A lo ancho de toda la página.
report-stamp-partial = PARCIAL
report-stamp-ended-early = TERMINADO ANTES
report-stamp-both = PARCIAL, TERMINADO ANTES
report-stamp-going = SIN TERMINAR
report-ended-early = Terminado antes de su último paso.
report-going = Sin terminar: lo que sigue es hasta donde iba cuando se hizo esta página.
report-foot = { $vehicle }, recorrido { $walk }. No es una inspección periódica (49 CFR 396.17).
# Los dos son números que se llenan donde se hace la página.
report-page = página { "{page}" } de { "{pages}" }
# Día y hora con la distancia de su zona a UTC, como en "+01:00", "+00:00".
report-time = { $time } UTC{ $zone ->
    [zero] { "" }
   *[other] { $offset }
 }

report-vehicle = Vehículo
report-plate = Placa
report-vin = VIN
report-odometer = Odómetro
report-not-given = sin dato
report-kind = Tipo
report-begun = Empezado
report-last-answer = Última respuesta
report-closed = Cerrado
report-who = Por
report-where = Dónde
report-scope = Se revisó
report-scope-whole = luces y frenos de aire
report-scope-lamps = solo luces
report-scope-brakes = solo frenos
report-scope-recheck = solo defectos anteriores
report-recheck-of = Segunda revisión del recorrido
report-walk = Recorrido

report-wrong = Lo que está mal
report-wrong-none = No se halló nada mal en lo que se revisó.
report-no = N.º
report-what = Lo que se halló
report-done = Hecho, anotado
report-state = Estado
report-open = ABIERTO
report-open-cured = ABIERTO en este recorrido, bien desde entonces
report-found-by = Hallado por { $who }, { $time }.
report-rechecked = Revisado otra vez, bien, por { $who }, { $time }.
report-later-cured = Revisado otra vez desde entonces, bien, por { $who }, { $time }, en el recorrido { $walk }.
report-later-open = Sigue abierto: visto por { $who }, { $time }, en el recorrido { $walk }.
report-later-again = Mal otra vez, visto por { $who }, { $time }, en el recorrido { $walk }.
report-found = { $step }: { $what }
report-note = Nota: { $note }
report-withdrawn = Retirado por no ser defecto, por { $who }, { $time }.
report-repair-to-write = Reparación:
report-repair-done = { $what }: { $who }, { $time }.
report-plan = { $count ->
    [one] El vehículo desde arriba con 1 hallazgo marcado: { $findings }
   *[other] El vehículo desde arriba con { $count } hallazgos marcados: { $findings }
 }
report-plan-key = Los números son los de abajo; lleno: abierto; vacío: revisado otra vez, bien.
report-not-on-plan = No marcados en el plano: n.º { $numbers }.

report-unchecked = Lo que no se revisó, y por qué
report-unchecked-none = Todos los pasos de este recorrido tienen respuesta.
report-outside = No es parte de este recorrido
report-outside-lamps = los frenos de aire
report-outside-brakes = luces y reflectores
report-outside-recheck = todo menos los defectos anteriores que se nombran aquí
report-unchecked-row = { $why }: { $count ->
    [one] 1 paso
   *[other] { $count } pasos
 }
report-not-reached = No se llegó
report-not-fitted = No lo lleva, y ninguna regla lo pide
report-hidden = No se puede mostrar con esta fuente de corriente
report-not-covered = Fuera de esta revisión

report-checked = Lo que se revisó sin hallar falla
report-group-ready = Preparación
report-group-lamps = Luces y reflectores
report-group-air = Pruebas de fuga
report-group-wheels = En las ruedas
report-group-supply = Suministro de aire
report-group-leaving = Cómo quedó
report-checked-step = { $step } ({ $what })
# Las luces de un lado del vehículo: "atrás: ambas luces de cola, tres luces de identificación"
report-checked-at = { $where }: { $what }

report-holds = Pruebas de fuga
# Sobre una gráfica: qué prueba, qué manómetro.
report-chart = { $step }: { $chart }
report-readings = Lecturas: { $readings }.
report-chart-fitted = ajuste, margen en gris
report-strokes = Carreras de las varillas, por rueda
report-strokes-told = El vehículo desde arriba con la carrera en cada rueda: { $strokes }
report-stroke-told = { $step }: { $stroke }
report-strokes-key = En cada rueda la carrera y su límite; lleno: fuera de él.
report-stroke-unmeasured = sin carrera
report-chambers = { $step }: { $chambers }
report-measured = Otros valores
report-sources = Reglas y límites, y de dónde son
report-source-in-doubt = { $source }. En duda: { $doubt }
# De cuál de los hallazgos numerados trata una regla.
report-rule-of = N.º { $numbers }
report-notes = Notas
report-vehicle-note = Sobre el vehículo
report-known-damage = Daños conocidos
report-about-walk = Sobre este recorrido
report-gauges = Manómetros: { $gauges }.
report-counts = { $count ->
    [one] 1 paso
   *[other] { $count } pasos
 }: { ITEMS($answers) }.

report-by-hand = Firmado, o para llenar a mano
# El reporte de un conductor pudo nombrar uno de estos defectos: el transportista certifica en él qué se hizo.
report-drivers-report = Si el reporte de un conductor nombró un defecto, certificado en ese reporte (encierre uno): reparado / no hacía falta reparar (49 CFR 396.11(a)(3)(ii))
report-blank-by = Por
report-blank-name = Nombre
report-blank-signature = Firma
report-blank-date = Fecha
report-blank-what = Qué
report-keep = Donde rige 49 CFR 396.3(c), este registro se guarda donde el vehículo se aloja o se mantiene, por 1 año, y por 6 meses después de que el vehículo sale del control del transportista.
# De una luz en un paso donde otra cosa se halló mal.
report-no-fault-named = ninguna falla nombrada
report-photos = Fotos
# Debajo de una foto: los números de lo que está mal en su paso, como en la tabla de hallazgos.
report-photo-of = { $numbers }: { $step }
report-photos-lost = { $count ->
    [one] Falta una foto de este recorrido.
   *[other] Faltan { $count } fotos de este recorrido.
 }
# Cuántas respuestas se dieron de qué manera.
report-answered = Respuestas: { $ways }.
report-by-tap = { $count } por toque
report-by-key = { $count } por tecla
report-by-voice = { $count } por voz

# Las causas probables de lo que sigue abierto, cuando se hizo esta página.
report-likely-lamps = Luces
report-likely-air = Aire
report-likely-cause = { $cause }: { $percent } %
# The share is of all of them together.
report-likely-cause-alike = { $cause }, o lo que se ve igual ({ $alike }): { $percent } %
# Lo que se hizo para averiguar, y qué salió.
report-tried = Hecho: { $what } { CAPITAL($found) }.
