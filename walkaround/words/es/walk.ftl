# Las pantallas alrededor de los pasos de un recorrido: su inicio, su menú, el teléfono de la cabina, el
# resumen y el registro.

walk-cannot-be-opened = No se puede abrir este recorrido

start-check = Revisar
start-scope-whole = Todo
start-scope-lamps = Luces
start-scope-all-lamps = Luces: todo lo que esta aplicación revisa aquí
start-scope-brakes = Frenos
start-switched-from = Las luces se prenden desde
start-power-box = Caja en mano
start-power-cab = La cabina
start-power-helper = Un ayudante
start-circuits = Circuitos
start-looks-together = Menos miradas
start-looks-singly = Uno por uno
start-air = El aire viene de
start-air-shop = La línea del taller
start-air-coupled = Unidad motriz
start-towing = Remolca
start-units-towed = Unidades remolcadas, todas
start-towed = { $count ->
    [0] Nada
   *[other] { CAPITAL(start-count) }
 }
start-count = { SPELLED($count) }
# Lo que dejaron recorridos anteriores de este vehículo.
start-unfinished = Sin terminar, en el paso { $at } de { $steps }
start-open-before = { $count ->
    [one] 1 defecto sigue abierto de un recorrido anterior
   *[other] { $count } defectos siguen abiertos de un recorrido anterior
 }
# Lo que halló un recorrido anterior y nadie ha arreglado: antes de un recorrido, y en su paso.
last-time-at-step = { $step }: { $defect }
last-time = La última vez, { $day }: { $defect }
# Se pregunta antes de empezar otro recorrido del mismo vehículo.
start-second = Hay un recorrido de este vehículo sin terminar. ¿Empezar otro?
start-second-yes = Empezar otro recorrido
# Se pregunta antes del primer recorrido en un teléfono.
start-who-asked = ¿Cómo se llama usted?
start-who-why = Con eso se firma cada respuesta. Este teléfono se acuerda.
start-look-at-it = Ver el registro
start-who = Su nombre
start-name = Nombre o número
start-the-walk = Empezar el recorrido
start-lamps-only = Solo luces
# Lo que la fuente de corriente no puede mostrar.
start-hidden = { $what }.
# "Unos 27 min, 38 pasos"; los minutos son un cálculo.
start-takes = Unos { $minutes } min, { start-steps }
# Manómetros conocidos que no se preguntan otra vez; $gauges dice cómo es cada uno.
start-gauges = Manómetros como se dijo hoy, cero visto: { $gauges }. Este lugar a { $altitude } sobre el mar.
start-ask-gauges = Preguntarlos otra vez
# "31 luces y reflectores, una vuelta, 60 m a pie."
start-about = { ITEMS($parts) }.
start-steps = { $count ->
    [one] un paso
   *[other] { $count } pasos
 }
start-lamps = { $count } luces y reflectores
start-rounds = { $count ->
    [1] una vuelta
   *[other] { $count } vueltas
 }
start-to-walk = { $distance } a pie
start-holds = { $count ->
    [one] una prueba de fuga
   *[other] { $count } pruebas de fuga
 }
start-measurements = { $count ->
    [one] una medición
   *[other] { $count } mediciones
 }

menu-title = Más
menu-stop-for-now = Parar por ahora
menu-only-switches = Mostrar solo qué accionar
menu-end = Terminar aquí este recorrido
end-question = ¿Terminar aquí este recorrido?
end-means = { $count ->
    [one] 1 paso no tiene respuesta. El registro llevará la marca de parcial y dirá que no se revisó.
   *[other] { $count } pasos no tienen respuesta. El registro llevará la marca de parcial y dirá que no se revisaron.
 }
end-leave-it-safe = Antes de dejar un vehículo a medio revisar: calzas puestas, frenos de estacionamiento puestos, fuente de aire cerrada, y avise a todos que tiene aire o corriente.
end-yes = Terminarlo aquí
# Cómo se deja un vehículo.
leave-question = ¿Parar por ahora?
leave-applied = El aire tiene los frenos aplicados: nadie entra a las ruedas. Todos afuera, quite el puntal o descargue la azul, y luego ponga los frenos de estacionamiento.
leave-charged = Hay aire en las líneas y puede tener los frenos liberados. Ponga los frenos de estacionamiento: perillas afuera en la cabina; con aire del taller, descargue la roja. Las calzas se quedan. Avise a todos.
leave-yes = Parar, dejarlo así
leave-brake-defects = { $count ->
    [one] Un defecto de frenos abierto.
   *[other] { $count } defectos de frenos abiertos.
 }
# Dos frases completas, una tras otra.
sentences = { $first } { $then }
leave-chocks-in = Deje las calzas puestas y etiquete el vehículo.
# Se pregunta antes de que otra respuesta retire un defecto abierto.
withdraw-question = ¿Retirar el defecto?
withdraw-means = Solo si no lo era. Después de una reparación, revíselo otra vez desde los defectos abiertos: así el registro muestra las dos cosas.
withdraw-yes = No era defecto: retirarlo
withdraw-keep = Dejar el defecto
defects-title = Defectos abiertos
recheck-now = Mirar otra vez ahora
recheck-from-its-record = El vehículo ya no está como este paso lo necesita. Termine este recorrido y revise el defecto desde su registro.
# Lo que había antes, y lo que halló la segunda revisión.
recheck-not-cured = { $step }, todavía mal. Antes: { SMALL($before) }. Ahora: { SMALL($now) }.
steps-title = Pasos y respuestas
steps-no-answer = sin respuesta
steps-given = { $time }, { $who }, { $by }

paused-title = En pausa
paused-answered = { $answered } de { $steps } pasos tienen respuesta.
paused-look-again = Mire otra vez el vehículo antes de seguir: calzas, aire y corriente pueden no estar como los dejó.

# El teléfono de la cabina.
cab-at-the-switches = En los interruptores. { $answered } de { $steps } respondidos
cab-say-again = Repetir
cab-outside = Ahora afuera
cab-next = Sigue: { $later }

summary-close = Cerrar el registro
summary-headline = { CAPITAL(defects-open) }
summary-headline-early = Terminado antes. { CAPITAL(defects-open) }
summary-headline-since = { $ended ->
    [early] { "Terminado antes. " }
   *[whole] { "" }
 }{ $count ->
    [one] 1 defecto quedó abierto en este recorrido
   *[other] { $count } defectos quedaron abiertos en este recorrido
 }; { $left ->
    [0] { $count ->
        [one] revisado otra vez desde entonces, bien
       *[other] todos revisados otra vez desde entonces, bien
    }
    [one] 1 de ellos no está revisado otra vez
   *[other] { $left } de ellos no están revisados otra vez
 }
summary-partial-lamps = Parcial: solo luces.
summary-partial-brakes = Parcial: solo frenos.
summary-partial-recheck = Parcial: solo la revisión de defectos anteriores.
summary-partial-whole = Parcial: terminado antes de su último paso.
summary-no-result = Sin resultado.
summary-measured = Medido
summary-rechecked = { $step }: { $defect }, revisado otra vez, bien, por { $who }, { $time }
# Por qué no se revisó un paso: "Líneas conectadas: sin aire".
summary-unchecked = { $step }: { SMALL($why) }
summary-not-reached = { $step }: no se llegó
summary-unreached = No se llegó
# Un defecto que se retiró por no serlo.
summary-withdrawn = { $step }: { $defect }, retirado por { $who }, { $time }
summary-notes = Notas
summary-outcome = { $step }: { $outcome }
# "64 pasos: 60 bien, 1 defecto, 3 sin revisar."
summary-counts = { $count ->
    [one] 1 paso
   *[other] { $count } pasos
 }: { ITEMS($answers) }.
summary-count-ok = { $count } bien
summary-count-defect = { $count } con defecto
summary-count-missing = { $count } con falta
summary-count-not-fitted = { $count } no lleva
summary-count-not-checked = { $count } sin revisar
# Mirado otra vez después de una reparación: lo que ella pudo cambiar.
summary-due = Por mirar otra vez después de la reparación
summary-repaired = { $what }, { $who }, { $time }
record-plate = Placa { $mark }
record-vin = VIN { $mark }
record-odometer = Odómetro { $mark }
odometer-vehicle = Odómetro ({ $unit }), si se quiere
odometer-hub = Odómetro de cubo ({ $unit }), si lo hay
record-begun = Empezado el { $began }, por { $who }
record-ended = Cerrado el { $ended }
record-answered-by = Respondido por { $names }
# Botones que llevan al otro registro; $day es el día y la hora en que empezó.
record-recheck-of = Revisa otra vez el registro del { $day }
record-rechecked-on = Revisado otra vez el { $day }
record-recheck = Revisar otra vez los defectos
# Archivos para entregar.
record-page = Página (PDF)
record-table = Tabla (CSV)
record-everything = Todo (JSON)
record-other-files = Otros archivos
record-page-html = Página (HTML)
record-lines = Tabla (NDJSON)
record-for-a-shop = Para otro taller (ZIP)
