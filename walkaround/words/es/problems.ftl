# Qué está mal en un valor que alguien escribió, y cómo corregirlo: dos frases del mensaje `problem`,
# la segunda una instrucción, ninguna con punto. Lo que está mal tiene por sujeto la clave o el campo
# ("width_mm: falta", "Ancho falta"); un mensaje que empieza por trouble- es una frase propia.

problem-is-missing = falta
problem-add-the-key = agregue la clave { $key }
trouble-no-such-key = no existe tal clave
problem-perhaps = quizá quiso decir { $name }
problem-use-one-of = use uno de: { ITEMS($names) }
problem-not-allowed = es { $value }, que aquí no se permite
problem-other-fault = es { $value }: { $fault }
problem-correct-the-value = corrija el valor

# Un valor como está en el archivo, donde sería demasiado largo.
problem-value-table = una tabla
problem-value-list = una lista

problem-is = es { $value }
problem-write-above = escriba un número mayor que { $bound }
problem-write-not-below = escriba un número no menor que { $bound }
problem-write-not-above = escriba un número no mayor que { $bound }

problem-needs-finite-number = es { $value } donde va un número finito
problem-write-finite-number = escriba un número
problem-needs-id = es { $value } donde va un id sencillo
problem-write-id = use solo letras minúsculas, cifras y guiones bajos
problem-needs-text = es { $value } donde va un texto
problem-write-text = ponga el texto entre comillas
problem-needs-number = es { $value } donde va un número
problem-write-number = escriba un número de tamaño normal, sin comillas
problem-needs-whole-number = es { $value } donde va un número entero
problem-write-whole-number = escriba un número entero sin comillas
problem-needs-true-or-false = es { $value } donde va true o false
problem-write-true-or-false = escriba true o false sin comillas
problem-needs-date = es { $value } donde va una fecha
problem-write-date = escríbala como año-mes-día, por ejemplo 2011-04-01
problem-needs-list = es { $value } donde va una lista
problem-write-list = ponga los valores entre [corchetes]
problem-needs-table = es { $value } donde va una tabla
problem-write-table = escríbala como [tabla] o como { "{" } clave = valor { "}" }

# Lo que impide leer un archivo, y cómo corregirlo.
file-holds-nothing = está vacío
file-mend-holds-nothing = llénelo o bórrelo
file-no-plain-file = no se puede leer (no es un archivo)
file-mend-no-plain-file = vea que sea un archivo que usted pueda leer
file-no-such-file = no existe
file-mend-no-such-file = revise la ruta
file-no-text-file = no es un archivo de texto
file-mend-no-text-file = escríbalo como texto TOML
file-not-utf-8 = tiene caracteres que no son UTF-8
file-mend-not-utf-8 = guárdelo como texto UTF-8
file-key-of-too-many-parts = una clave tiene demasiadas partes
file-mend-key-of-too-many-parts = aplane las tablas
file-tables-nested-too-deep = hay tablas dentro de demasiadas tablas
file-mend-tables-nested-too-deep = aplánelas
file-number-too-long = tiene un número de miles de cifras
file-mend-number-too-long = escriba uno de tamaño normal
# Entre paréntesis: por qué, como lo dice la computadora.
problem-cannot-be-read = no se puede leer ({ $reason })
problem-check-that-you-may-read-it = vea que sea un archivo que usted pueda leer
trouble-not-valid-toml = esto no es TOML válido ({ $fault })
problem-correct-the-line = corrija la línea; primero comillas y corchetes
problem-larger-than = pasa de { $kb } kB
problem-split-it = divídalo en archivos más chicos

# Demasiado de algo, y textos y números que no pueden ser.
problem-nested-too-deep = tiene demasiados niveles
problem-flatten-it = aplánelo
problem-too-many-things = tiene { NUMBER($count, useGrouping: 0) } cosas; como máximo { NUMBER($most, useGrouping: 0) }
problem-keep-what-is-needed = deje lo necesario o divida el archivo
problem-too-many-values = tiene más de { NUMBER($most, useGrouping: 0) } valores
problem-more-problems = tiene { NUMBER($count, useGrouping: 0) } problemas más
problem-mend-these-first = corrija primero estos y revise otra vez
problem-number-too-large = es un número demasiado grande
problem-write-one-up-to = escriba uno hasta { $most }
problem-line-break-or-tab = tiene un salto de línea o un tabulador
problem-write-in-one-line = escríbalo en una línea, con espacios
problem-hidden-character = tiene { $character }, que no se ve
problem-take-that-character-out = quite ese carácter
problem-too-many-characters = tiene { NUMBER($count, useGrouping: 0) } caracteres; como máximo { NUMBER($most, useGrouping: 0) }
problem-say-it-shorter = dígalo más corto
problem-write-from-to = escriba un valor de { $least } a { $most }

# Dos cosas con un mismo id.
trouble-id-is-taken = { $id } ya es el id de { $file }
problem-give-one-another-id = dé a una otro id
trouble-lamp-rule-is-elsewhere = { $file } tiene una regla de luces con este id, que es la que vale
problem-give-this-one-another-id = dé a esta otro id

problem-choose-a-vehicle-file = elija un archivo de vehículo
problem-vehicle-is-not-own = no se hizo en esta aplicación, o se borró
problem-copy-a-vehicle = copie un vehículo y cambie la copia

# Cámaras de freno; lo que va entre comillas está en archivos.
problem-no-stroke = es { $value }, que no es la carrera de una cámara de freno en pulgadas
problem-unlisted-type = es { $type }, que ninguna tabla de carreras da para una cámara { $actuator }
problem-type-or-other = { $near }, o ponga actuator = "other" y rated_stroke_in
problem-unlisted-long-stroke = es true, pero ninguna tabla da una cámara de carrera larga { $actuator } { $type }
problem-false-or-correct-type = ponga false o corrija type
problem-missing-and-unlisted = falta, y ninguna tabla da tal actuador
problem-give-the-rated-stroke = dé la carrera nominal marcada en el actuador, en pulgadas
problem-give-one-of = dé uno de: { ITEMS($names) }

# Focos, por sus números de comercio.
problem-bulb-of-other-volts = es { $bulb }, un foco de { $of } V en un vehículo de { $volts } V
problem-correct-the-bulb = corrija el número o volts; focos de { $volts } V: { ITEMS($bulbs) }
problem-unlisted-bulb = es { $bulb }, que no está en la tabla de focos
problem-bulb-or-led = { $near }, o escriba "led"

# Lo que dicen las revisiones de todos los archivos.
problem-too-many = está { NUMBER($count, useGrouping: 0) } veces; como máximo { $most }
problem-stands-twice = está { $count ->
    [2] dos veces
   *[other] { $count } veces
 }
problem-give-each-its-own-id = dé a cada uno su propio id
problem-is-empty = está vacío
problem-write-the-text = escriba el texto
problem-write-at-most = escriba como máximo { $most }
problem-is-not = es { $value }, que no es { $meant }
problem-take-it-out = quítelo
trouble-unknown-connector = ningún conector se llama { $name }
trouble-unknown-circuit = ningún circuito se llama { $name }
trouble-unknown-circuit-of = ningún circuito de { $owner } se llama { $name }
trouble-unknown-circuit-of-vehicle = ningún circuito del vehículo se llama { $name }
trouble-unknown-other-step = ningún otro paso de este archivo se llama { $name }
trouble-unknown-limit = ningún límite de ese paso se llama { $name }
trouble-unknown-source = ninguna fuente con interruptores de este archivo se llama { $name }
trouble-unknown-switch = ningún interruptor ni posición de esta fuente se llama { $name }

# Vehículos.
problem-tap-a-name = toque uno de los nombres o escriba uno
problem-name-of-another = es el de otro vehículo, { $name }
problem-give-each-its-own-name = dé a cada uno su propio nombre
problem-keep-what-the-vehicle-has = deje lo que el vehículo tiene
# Después de "es 25910, que no es ...".
problem-meant-size = el tamaño de un vehículo de carretera
problem-meant-volume = el volumen de un tanque en litros
# Tipos de vehículo como los nombran los archivos.
problem-is-for-kinds = es para { EITHER($kinds) }
problem-take-it-out-or-correct-kind = quítelo o corrija kind
problem-correct-the-date = corrija la fecha de fabricación
problem-day-to-come = es { $day }, un día que aún no llega
problem-day-too-early = es { $day }, antes de que hubiera tales vehículos
problem-bulb-of-no-lamp = no es una clase de luz ni una luz de este vehículo

# Listas de revisión; lo que va entre comillas y con guion bajo está en archivos.
problem-split-the-file = divida el archivo
problem-keep-it-short = deje lo que hacen las manos; el resto va en long
trouble-placeholder-unfilled = nada llena el hueco { $placeholder }
problem-use-a-placeholder = use uno de { ITEMS($names) }, o { problem-write-a-quantity }
problem-write-a-quantity = escriba una cantidad como { "{110 psi}" }, { "{80 to 90 psi}" } o { "{1 7/8 in}" }
problem-set-true = ponga { $key } = true
trouble-axles-share-the-id = todos los ejes tendrían este mismo id
problem-put-axle-in-id = ponga { "{axle}" } en el id
trouble-ends-share-the-id = los dos extremos de un eje tendrían este mismo id
problem-put-side-in-id = ponga { "{side}" } en el id
trouble-lamp-step-written = los pasos de luces no se escriben en archivos
problem-write-a-lamp-rule = escriba una regla [[lamp]]; los pasos salen de ella
problem-spread-places-others = es { $quantity }, pero spread { $spread } da { $places } lugares
problem-make-them-agree = haga que quantity y spread concuerden
problem-spread-not-of-sides = es { $spread }, que los lados no tienen
problem-use-pair-left-right = use pair, left o right
problem-stands-in-a-row-for-end = está en una fila para { $end }
problem-take-it-out-or-set-side = quítelo o ponga end = "side"
problem-holds-for-every-vehicle = vale para todos los vehículos
problem-say-for-which = diga para cuáles, o escríbalo en la fila

# Lo que mide una lista de revisión.
problem-add-the-table-or-change-kind = agregue la tabla { $table } o cambie kind
problem-stands-in-kind = está en un paso de kind { $kind }
problem-take-it-out-or-set-kind = quítelo o ponga kind = "{ $kind }"
trouble-no-must-hold = una prueba de fuga no puede ser must
trouble-no-must-measure = un paso medido no puede ser must
trouble-no-must-wait = una espera no puede ser must
trouble-no-must-gauges = el paso de los manómetros no puede ser must
problem-set-must-false = ponga must = false
problem-bounds-nothing = no limita nada
problem-add-a-bound = agregue at_least o at_most
problem-above-at-most = es { $value }, mayor que at_most
problem-write-the-lower-bound = escriba ahí el límite inferior
problem-is-no-loss = no es una pérdida de presión
problem-write-a-loss = escriba at_most en psi/min, mayor que 0
problem-name-the-gauges = nombre los manómetros que se leen
problem-is-read-off-no-gauge = no se lee en ningún manómetro
problem-names-a-gauge-twice = nombra dos veces un manómetro
problem-name-each-once = nombre cada uno una vez
problem-is-no-drop = no es una caída de presión
problem-goes-with-a-length = va con una medida de largo, y con nada más
problem-write-strokes = escriba limits_from = "strokes"
problem-set-quantity-in = ponga quantity = "in"
problem-is-of-one-wheel-end = es el límite de la cámara de una sola rueda
problem-stands-beside-limits-from = está junto a limits_from, que es el que vale
problem-no-time-is-taken = es { $value }, pero no se toma ningún tiempo
problem-write-what-is-tapped = escriba qué se toca entonces

# Conectores, y cómo están conectadas las luces de un vehículo.
problem-keep-what-is-used = deje lo que se usa
problem-other-count-of-pins = es { $count }, pero hay { $listed } pines en la lista
problem-list-every-pin = ponga todos los pines, con fn NC donde no hay nada conectado
problem-keep-one = deje uno
problem-keep-one-of-them = deje uno de ellos
problem-names-one-way = nombra a { $other }, que no nombra a { $own }
problem-name-each-or-neither = nombre cada uno en el otro, o ninguno
problem-connector-of-other-volts = es { $volts }, pero { $connector } es un conector de { $nominal } V
problem-correct-volts-or-connector = corrija volts o ponga el conector como está cableado
problem-connector-combines = es separate, pero { $connector } alimenta freno y giro por los mismos contactos
problem-set-combined-or-connector = ponga stop_turn = "combined" o el conector como está cableado
problem-connector-without-blackout = es true, pero { $connector } no tiene contactos de oscurecimiento
problem-false-or-connector = ponga false o el conector como está cableado
problem-says-nothing = no dice nada
problem-write-circuit-or-cluster = escriba su circuito o su cluster, o quítelo
problem-no-table-of-lamps = es { $rules }, y ninguna tabla de aquí dice qué luces lleva allá un { $kind }
problem-correct-rules = corrija rules, o agregue una lista con sus luces
trouble-unknown-housing = el vehículo no tiene una caja llamada { $name }
trouble-unknown-trial = nada que se pueda hacer en este vehículo se llama { $name }
trouble-unknown-outcome = { $name } no es nada que pueda resultar de eso
problem-nothing-seen = no dice nada de lo que se vio
problem-say-seen = agregue una tabla [seen.CIRCUIT] de cómo se vieron las cajas con él prendido, o tablas [[air.hold]]
trouble-no-lamp-of-this-id = el vehículo no tiene una luz con este id
trouble-no-circuit = { $connector } no tiene circuito para { $lamps }
# En esa lista: una luz, y cuántas más hay.
problem-the-lamp = { $lamp }
problem-more-lamps = { $count } más
problem-name-every-connector = ponga el conector como está cableado y second_connector si hay, o corrija lo que lleva
problem-feeds-no-lamps = es { $connector }, que no alimenta luces
problem-name-the-connector-of-the-lamps = ponga el conector de las luces; este puede ser su second_connector

# Fuentes de corriente y sus interruptores.
problem-has-no-switches = no tiene interruptores
problem-switches-two-ways = dice de dos maneras qué interruptores tiene
problem-write-one-way-of-switches = escriba each_circuit = true, switches_of o tablas [[power_source.switch]]; solo uno de ellos
problem-has-no-position = no tiene posición
problem-add-a-position = agregue una tabla [[power_source.switch.position]] o quite el interruptor
problem-write-its-switches-out = escriba sus interruptores completos
problem-names-own-switch = nombra { $name }, pero un interruptor está siempre en una sola posición
problem-lights-nothing = no prende nada y nada lo necesita
problem-write-what-it-lights = escriba qué prende, o quítelo: apagado no lleva tabla
problem-power-source = fuente de corriente { $source }
problem-many-switches = tiene { $count } interruptores que dependen uno de otro y cuentan para este vehículo
problem-many-settings = tiene { $count } posiciones que cuentan para este vehículo
problem-many-settings-together = tiene { $count } posiciones que van juntas y cuentan para este vehículo
problem-leave-out-what-is-not-needed = quite lo que este recorrido no necesita, hasta que queden como máximo { $most }
trouble-unknown-power = ninguna fuente de corriente se llama { $name }
trouble-box-at-power-unit = { $name } es para lo que se remolca: mandaría corriente de regreso a los cables de un { $kind }
problem-choose-in-an-act = dé dos opciones o más a un paso de kind act
problem-nothing-to-choose = no da nada que elegir
problem-is-of-one-axle = lee las cámaras de un eje
problem-stands-beside-per-axle = está junto a per_axle o per_end
problem-set-false = ponga false
