# La prueba de fuga: lo que se dice mientras corre y lo que resultó.

# Los manómetros, según para qué es su aire: "Lea el manómetro { $gauge }."
gauge-supply = de suministro
gauge-service = de servicio
gauge-primary = primario
gauge-secondary = secundario
gauge-named = Manómetro { $gauge }

# Se dice a su tiempo mientras corre el minuto.
hold-cue-start = Empiece. Lea el manómetro { $gauge }.
hold-cue-start-mixed = Empiece. Lea el manómetro { $gauge }. Toque cada raya que cruce la otra aguja.
hold-cue-start-crossing = Empiece. Toque la raya donde está la aguja; luego cada raya cuando la cruce.
hold-cue-half = { $seconds } segundos. Lea el manómetro { $gauge }.
hold-cue-seconds = { $seconds } segundos.
hold-cue-stop = Alto. Lea el manómetro { $gauge }.
hold-cue-go-on = Un minuto. Siga tocando hasta que esté claro.
hold-cue-more = Lea el manómetro { $gauge }.
hold-cue-last = Última lectura. Lea el manómetro { $gauge }.
hold-next-gauge = Ahora el manómetro { $gauge }.
# Se dice después de por qué aún no está claro.
hold-on = Lea a los { $seconds } segundos.

# Se muestra y se dice cuando el minuto ya pasó y aún no hay resultado. $whys es una de las de abajo
# por cada manómetro, con su punto; los números van en la unidad de quien lee.
hold-not-clear = Aún no está claro: { $whys }
hold-why-few = faltan lecturas.
hold-why-cooling = pierde { $rate }; puede ser que aún se enfríe.
hold-why-bounds = entre { $low } y { $high }, y el límite es { $limit }.
# De varias lecturas; solo la siguiente dirá cuál.
hold-why-misread = una lectura no cuadra con las demás.
hold-does-not-fit = { $value } a los { $seconds } s no cuadra: ¿mal leído?
hold-why-of-gauge = Manómetro { $gauge }: { $why }
hold-of-gauge = manómetro { $gauge }: { $rate }
# Entre qué valores está la pérdida; solo el último lleva su unidad. Como máximo: quizá ninguna.
hold-span-loss = pierde de { $low } a { $high }
hold-span-gain = gana de { $low } a { $high }
hold-span-at-most = { $seen ->
    [yes] pierde como máximo { $high }
   *[no] no hay fuga medible; como máximo { $high }
 }

# Lo que resultó. $moved dice si se perdió o se ganó presión.
hold-result = { $verdict ->
    [over] El manómetro { $gauge } { $moved ->
        [gained] ganó
       *[lost] perdió
     } { $rate }. Pasa del límite de { $limit }.
   *[within] El manómetro { $gauge } { $moved ->
        [gained] ganó
       *[lost] perdió
     } { $rate }. Dentro del límite de { $limit }.
 }
hold-result-settling = Manómetro { $gauge }: el aire todavía se está asentando.
hold-result-rising = Manómetro { $gauge }: la presión subió.
# Hay que repetirla; $why es una de `hold-why` o `hold-does-not-fit`.
hold-result-none = Manómetro { $gauge }: sin resultado. { CAPITAL($why) }
hold-result-undecided = Manómetro { $gauge }: sin decidir, { $why } Por la regla simple { $moved ->
    [gained] ganó
   *[lost] perdió
 } { $rate }: { $verdict ->
    [over] pasa del límite de { $limit }
   *[within] dentro del límite de { $limit }
 }.
hold-verdict-within = Dentro del límite: { $rate } ({ $strict ->
    [yes] menos de
   *[no] máx.
 } { $limit })
hold-verdict-over = Pasa del límite: { $rate } ({ $strict ->
    [yes] debe ser menos de
   *[no] máx.
 } { $limit })
# La regla simple es la del reloj y la tarjeta: la caída en el minuto contra el límite.
hold-plain-rule = Regla simple: { $moved ->
    [gained] ganó
   *[lost] perdió
 } { $rate }, { $verdict }.
verdict-within = dentro del límite
verdict-over = pasa del límite
verdict-undecided = sin decidir
verdict-settling = asentándose
verdict-rising = subió
hold-settling-cooling = Se enfrió: el aire recién cargado está caliente, y al enfriarse parece una fuga. Espere dos minutos, recargue a la presión indicada y empiece otra vez.
hold-settling-misread = Con una lectura así la prueba no dice nada. Recargue a la presión indicada y empiece otra vez.
hold-settling-uneven = Bajó y volvió a subir: el aire no se ha asentado. Vea que la fuente esté cerrada. Espere dos minutos, recargue a la presión indicada y empiece otra vez.
hold-settling-rising = La presión subió. Vea que la fuente esté cerrada. Espere dos minutos, complete a la presión indicada y repita la prueba.
hold-ended-time-up = Cinco minutos no bastaron: vale la regla simple.
hold-ended-early = Terminada antes, a los { $seconds } segundos: vale la regla simple.
hold-bounds = { CAPITAL($span) }, en un manómetro con rayas cada { $step }.
hold-limit = { $strict ->
    [yes] Límite: menos de { $limit }: { $source }.
   *[no] Límite: como máximo { $limit }: { $source }.
 }
source-from-memory = { $source } (de memoria)
source-none = { $source } (sin fuente)
hold-also = También publicado: { $also }.
hold-corrected = Aire a { $start } al empezar y a { $end } al terminar. Pérdida sin lo que eso causó: { $rates }. Es solo un dato; el resultado no cambia.
# Una lectura, y una para el registro.
hold-reading = { $value } a los { $seconds } s
hold-recorded = manómetro { $gauge } { $seconds } s { $value } { $unit }
# Se dice después de una lectura corregida; $values son los que hubo antes.
hold-recorded-mended = { $reading } (primero se anotó { $values })
hold-recorded-crossed = manómetro { $gauge } { $seconds } s { $value } { $unit } al cruzar

# Por qué una prueba no vale.
hold-void-restarted = La computadora se reinició durante la prueba de fuga y se perdió el tiempo: repita la prueba.
hold-void-slept = La computadora se durmió durante la prueba de fuga: repita la prueba.
hold-void-away = Durante la prueba de fuga la computadora se durmió, se reinició o le cambiaron la hora: repita la prueba.
hold-void-no-mark = No se tocó ninguna raya del manómetro { $gauge }: repita la prueba.
# $problem es uno de los de readings.ftl.
hold-void-readings = { CAPITAL($problem) }: repita la prueba.

# La fuga en palabras llanas.
leak-none = No se perdió aire.
leak-too-small = La fuga es tan chica que no se distingue de ninguna.
leak-untold = Con estas lecturas no se sabe de qué tamaño es la fuga.
leak-size = Unos { $flow } de aire libre, como un agujero redondo de { $hole }.
# $falls reúne `leak-to-warning` y `leak-to-spring-brakes`.
leak-falls = A este paso { $falls }.
leak-to-warning = { $pressure } (aviso de baja presión) { $when }
leak-to-spring-brakes = { $pressure } (pueden aplicarse los frenos de resorte) { $when }
leak-now = ya se alcanzó
leak-soon = en menos de 1 min
leak-minutes = en unos { $minutes } min
leak-hours = en unas { $hours } h
leak-days = en más de un día
leak-assumed = Se supone: { $volume } de aire encerrado que no cambia de temperatura, y un agujero de borde vivo con coeficiente de descarga de { $discharge }.

# Lo que marca un manómetro con aire encerrado a otra altitud; $up dice si es más alta.
altitude-same = Un manómetro marca lo mismo a { $end } que a { $start }.
altitude-other = { $up ->
    [yes] El aire encerrado que marca { $set } a { $start } marca { $same } a { $end } si no se enfría, porque el aire de afuera es más delgado. Si se enfría como el aire estándar ({ $start_c } a { $start }, { $end_c } a { $end }), marca { $taken }.
   *[no] El aire encerrado que marca { $set } a { $start } marca { $same } a { $end } si no se calienta, porque el aire de afuera es más denso. Si se calienta como el aire estándar ({ $start_c } a { $start }, { $end_c } a { $end }), marca { $taken }.
 }

# Las pantallas de la prueba de fuga.
gauge-in-unit = Manómetro { $gauge }, { $unit }
hold-lower = Menos
hold-higher = Más
hold-at-mark = Como estaba en la marca, a los { $seconds } s
hold-look-again = Mire otra vez: cuenta desde los { $seconds } s
hold-needle-crosses = la aguja cruza
hold-needle-on = la aguja está en
# Antes de la segunda y la tercera raya que puede ser.
hold-or = o
hold-start = Empezar el minuto
hold-again = Repetir la prueba
# Siempre a la vista mientras corre una prueba.
hold-stop = Parar

hold-end-plain = Parar y usar la caída de un minuto
# Por qué no vale una prueba que el mecánico dejó; queda en el registro.
hold-void-stopped = El mecánico paró la prueba de fuga.
hold-next-tap = Toque cada raya cuando la cruce la aguja. No toque ninguna válvula.
# $gauges son los que se leen como números.
hold-next = { $count ->
    [one] Sigue: el manómetro { $gauges }. No toque ninguna válvula.
   *[other] Sigue: los manómetros { $gauges }. No toque ninguna válvula.
 }
hold-elapsed = { $seconds } s desde el inicio
hold-tap-to-mend = Toque una lectura para cambiarla.
# Un valor lejos del anterior, y lo que se pudo querer decir.
hold-jump = ¿{ $meant }, y no { $read }?
hold-jump-said = ¿Cuál fue?
hold-jump-last = Toque lo que marcó el manómetro. La lectura anterior fue { $last } { $unit }.
# Una lectura mal anotada.
hold-mend = Manómetro { $gauge } a los { $seconds } s: ¿qué marcó?
hold-mend-keep = Dejar { $value } { $unit }
hold-mend-not-crossed = La aguja no ha cruzado { $value }: quitarlo

# Junto a los segundos grandes: qué son.
hold-clock-left = faltan del minuto

hold-clock-held = de prueba
hold-clock-to-next = a la próxima lectura

hold-clock-said-left = faltan { $seconds } segundos
hold-clock-said-held = van { $seconds } segundos
hold-clock-said-to-next = { $seconds } segundos a la próxima lectura
hold-air-button = Temperatura del aire
hold-air-title = Temperatura del aire
hold-air-where = En el tanque; si no se puede, alrededor de él.
hold-air-start = Al empezar
hold-air-end = Al terminar
hold-air-keep = Guardar con la prueba
chart-of = Gráfica del manómetro { $gauge }, { $unit }: { $readings }
chart-no-reading = todavía sin lecturas
chart-title = Manómetro { $gauge }, { $unit }
chart-limit = límite
