# La pantalla de un paso, y lo que se abre sobre ella.

step-of-steps = { $at } de { $steps }
# Lo mismo para quien oye la pantalla.
step-of-steps-said = paso { $at } de { $steps }
step-answered = respondido
step-more = Más
step-note = Nota: { $note }
# Una cosa con el número que tiene en el plano, y cómo debe verse donde difieren.
step-item = { $number }  { $item }
# Una de varias cosas que se miran en un mismo lugar.
step-row = • { $row }
step-item-look = { $number }  { $item }: { $look }
# Donde nada debe moverse en la pantalla: cómo se dibujan las luces que parpadean.
step-arcs-flash = Las luces con un arco a cada lado parpadean.
look-steady = luz fija
look-flashing = parpadea
look-dark = sin luz
# Un paso que se mira otra vez.
step-not-answered = Aún sin respuesta.
step-looking-back = Mirando atrás: { $step }
step-looking-back-said = Mirando atrás: { $step }.
step-given = Respondido: { $answer }, { $time }.
step-given-why = Respondido: { $answer }, { $why }, { $time }.
step-given-changes = { $given } Otra respuesta lo cambia.
# Sobre las palabras de un paso que se mira otra vez.
step-was-asked = Lo que se pidió

# Respuestas, y lo demás que se puede tocar; cortas, van en botones.
step-as-shown = Todo bien
step-listen = Oír
step-again = Otra vez
step-explain = Explicar
step-shorter = Breve
step-note-button = Nota
step-go-on = Seguir
# En lugar de las respuestas mientras no se ven palabras que hay que leer primero; baja la pantalla.
step-read-on = Seguir leyendo
step-other = Otra

fault-record-here = ¿Anotar un defecto aquí?
fault-stays-open = Queda abierto hasta que este paso se repita y esté bien.
fault-note-first = Escribir primero una nota
fault-which = ¿Cuál está mal?
fault-item = { $item }: { $seen }
# Volver con marcas que no se han anotado.
fault-drop-question = { $count ->
    [one] ¿Quitar lo que marcó?
   *[other] ¿Quitar las { $count } marcas?
 }
fault-drop = { $count ->
    [one] Quitarla
   *[other] Quitarlas
 }
fault-keep = { $count ->
    [one] Dejarla
   *[other] Dejarlas
 }
fault-what = ¿Qué ve?
fault-record = { $count ->
    [one] Anotarlo
   *[other] Anotar estos { $count }
 }
other-because = Sin revisar, porque
other-not-on-vehicle = Este vehículo no lo lleva
other-required = Estas luces son obligatorias: no puede decirse «No lleva». La que no está, falta: toque Defecto.
note-title = Nota
note-save = Guardar la nota
note-cut = La nota era demasiado larga: se guardan sus primeros { $most } caracteres. Lo que parece un carácter, como un emoji, puede contar por varios.
answered-elsewhere = Ese paso se respondió mientras tanto. Si usted vio otra cosa, vuelva a él y respóndalo otra vez.

# Valores que se miden.
measure-within = Dentro de los límites
measure-within-limit = Dentro del límite: { $value } ({ $limit })
measure-outside = { $bounds ->
    [high] Pasa del límite
    [low] No llega al límite
   *[both] Fuera de los límites
 }
measure-also = También publicado: { $also }.
measure-again = Medir otra vez
measure-too-late = El vehículo ya no está como este paso lo necesita: mida otra vez en un recorrido aparte.
measure-value = { CAPITAL($name) }: { $judged }
keypad-in = { CAPITAL($name) }, { $unit ->
    [in] pulgadas
    [s] segundos
   *[other] { $unit }
 }
# Las pulgadas enteras ya están; falta la fracción.
keypad-whole = { CAPITAL($name) }: { $whole } …
keypad-other-keys = Otras teclas

# Un tiempo que corre.
time-start = Empezar
time-stop = Parar
# Va donde irían los segundos: nadie sabe cuántos.
time-lost = perdido
time-seconds = { $seconds } s
wait-restarted = La computadora se reinició: el tiempo que estuvo apagada no cuenta.
wait-not-now = Saltar: sin revisar
wait-left = minutos faltan
# Lo que oye quien no ve el reloj.
wait-left-said = { $minutes ->
    [0] faltan { $seconds } segundos
    [one] falta 1 minuto { $seconds } segundos
   *[other] faltan { $minutes } minutos { $seconds } segundos
 }
wait-up = ya es tiempo
wait-strip-up = { $name }: ya es tiempo
wait-strip-minutes = { $name }: faltan { $minutes } min
wait-strip-seconds = { $name }: faltan { $seconds } s

# Las cámaras de un eje: los dos lados como se conocen, y la respuesta de que así son y las varillas
# están marcadas.
chambers-marked = Ambas bien
chambers-in-doubt = Un lado no se leyó completo. Lea los dos, anote el defecto, o responda Otra: sin revisar.
chambers-unlike = Los lados no son iguales; en un eje deben serlo (49 CFR 393.47(b)). Lea los dos otra vez, o anote el defecto.
chambers-which-size = Lado { $side }: tamaño en la cámara
chambers-unread = No se lee
chambers-other-kind = Otro tipo
chambers-long = Lado { $side }, tipo { $type }: ¿carrera larga?
chambers-long-tell = Carrera larga: entradas cuadradas, placa en trapecio, o así lo dice el sello.
chambers-yes = Sí
chambers-no = No
chambers-cannot-tell = No se sabe
chambers-rated = Lado { $side }, tipo { $type }: carrera marcada en ella
chambers-none-marked = Ninguna de estas
chambers-read-again = Leerlas otra vez

# Cómo son los manómetros de un recorrido.
gauge-by-crossings = manómetro { $gauge }, por cruces
gauge-plain = manómetro { $gauge }
gauge-dial-in = Manómetro { $gauge }: su carátula está en
gauge-finest = Lo más fino que se puede leer en él
gauge-tap-crossing = Tocar cuando la aguja cruza una raya
gauge-read-nearest = Leer la raya más cercana
gauge-site = Este lugar: { $altitude } sobre el mar
gauge-move-m = { $by } m
gauge-move-ft = { $by } ft
gauge-zero-seen = Cero visto a { $altitude }, la última vez.
gauge-zero-asked = Líneas descargadas: ¿están las agujas en cero?
gauge-as-last-time = Como la última vez
gauge-at-zero = Agujas en cero
gauge-not-at-zero = No en cero
# En el panel de una nota; el teléfono pregunta si tomar una con su cámara.
photo-take = Foto
photo-coming = La foto viene en camino.
photo-did-not-come = { $name } no llegó, o pasa de 40 MB; tome otra.
photo-left = { $count ->
    [0] Este recorrido ya tiene todas las fotos que caben.
    [one] Cabe 1 foto más en este recorrido.
   *[other] Caben { $count } fotos más en este recorrido.
 }
# Lo dicen los lectores de pantalla.
photo-of-step = Foto { $number }
step-vents = Sale aire
step-show-large = Mostrar en grande
