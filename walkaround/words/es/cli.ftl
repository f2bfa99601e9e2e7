# La línea de comandos: su ayuda, y lo que sus comandos imprimen para la gente.

# --lan y semejantes, los nombres de columnas y de unidades quedan como están.
help-app = La línea de comandos: `walkaround` inicia la aplicación; los otros comandos imprimen texto o JSON.
help-commands = comandos
help-verbose = decir lo que pasa, en stderr
help-data = carpeta de recorridos y ajustes
# $languages: "en, es"
help-language = idioma de lo que se muestra, dice e imprime: { ITEMS($languages) } (en si no se indica)
help-json = imprimir un documento JSON
help-host = dirección en que se sirve (127.0.0.1 si no se indica)
help-port = puerto en que se sirve (8765 si no se indica)
help-lan = servir también a la red local; hay que emparejar los aparatos
help-new-key = con --lan: hay que emparejar de nuevo todos los aparatos
help-https = servir por https, con un certificado hecho aquí
help-certificate = con --https: un certificado propio
help-private-key = la clave de ese certificado
help-no-browser = no abrir ningún navegador
help-steps = clase, luces, vueltas y pasos de un vehículo
help-wording = cómo se dicen los pasos (short si no se indica)
help-wiring = pines, circuitos, tierras y focos de un vehículo
help-causes = causas probables de lo que se vio en las luces, o del aire perdido
help-causes-case = qué se vio o se perdió en qué vehículo, como dice DEVELOPERS.md
help-hold = pérdida, margen y resultado del registro de una prueba de fuga
help-hold-log = tabla con la columna seconds y una de psi, kPa o bar
help-hold-limit = lo más que se puede perder, psi/min
help-hold-gauge-step = el manómetro se leyó con esta finura, en la unidad del registro (1 psi, 5 kPa o 0.05 bar si no se indica)
help-hold-read-sd = desviación estándar del error del ojo, psi (0.25 si no se indica)
help-check = todos los problemas de archivos de listas, vehículos, conectores o fuentes de corriente; sin archivo, de todos los que hay
# Cuántos datos de las tablas son de qué clase.
cli-provenance = Datos: { $read } leídos en su fuente, { $memory } de memoria, { $common_practice } de práctica común, { $none } sin fuente.
help-walks = los recorridos registrados, primero el más nuevo
# $kinds: ".csv, .ndjson"
help-walks-output = escribirlos como tabla en este archivo, primero el más viejo, una fila por recorrido; según su terminación: { $kinds }
help-facts = con -o: una fila por cada dato de cada recorrido
help-report = un recorrido como archivo para entregar
help-report-output = el archivo que se escribe; según su terminación: { $kinds }
help-share = recorridos como un archivo que otros talleres reciben en sus registros
help-share-walk = id de un recorrido; sin él, todos los recorridos
help-share-output = el archivo que se escribe, un archivo zip
help-share-shop = cómo se llama este taller en lo que firma, de ahora en adelante
help-merge = recibir en los registros de aquí los recorridos de archivos de registros
help-verify = si un archivo de registros se cambió después de compartirlo, y quién lo firmó
help-verify-keep = conservar la clave que firmó este archivo como la de ese taller, ya comparada con ellos
cli-shared = { $count ->
    [one] 1 recorrido compartido
   *[other] { $count } recorridos compartidos
 }. Firmado por { $shop }, clave { $key }.
cli-left-out = El recorrido { $walk } se deja fuera: { $why }
cli-verified = No se cambió ni un byte: { $walks ->
    [one] 1 recorrido
   *[other] { $walks } recorridos
 }, { $photos ->
    [one] 1 foto
   *[other] { $photos } fotos
 }.
problem-key-not-kept = el archivo no tiene una firma válida
problem-keep-of-a-sound-file = conserve solo la clave de un archivo que no se cambió
problem-file-ending = { $name } no tiene una terminación que diga qué escribir
problem-give-an-ending = termínelo en { EITHER($kinds) }

cli-complaint = walkaround: { $sentence }
# Dónde se sirve la aplicación; lo que inicia walkaround puede leer la dirección en esta línea.
cli-served-at = walkaround está en { $address }
cli-fingerprint = Huella SHA-256 del certificado: { $fingerprint }
cli-no-data-folder = { $folder } no es una carpeta; indique la carpeta de datos con --data.
problem-no-address = { $host } no es una dirección
problem-give-an-address = dé una como 127.0.0.1
problem-opens-every-record = { $host } abriría todos los registros a toda la red
problem-say-lan-too = ponga también --lan, para que haya que emparejar los aparatos, o use 127.0.0.1
problem-flag-needs = necesita { $other }
problem-give-flag-too = ponga también { $other }

cli-plan = { $vehicle }: clase { $class_ }, { $lamps } luces, { $reflectors } reflectores, { $rounds } vuelta(s)
cli-lamps = Luces
# $colours son los permitidos, de los que basta uno.
cli-lamp = { $name }, { EITHER($colours) }, circuito { $circuit } ({ $source }, { $provenance })
colour-white = blanco
colour-amber = ámbar
colour-red = rojo
colour-yellow = amarillo
# Luces que dan un color hacia adelante y otro hacia atrás.
colour-amber-and-red = ámbar y rojo
# Cuánto se puede confiar en un dato.
provenance-read = leído
provenance-memory = de memoria
provenance-common-practice = práctica común, sin fuente
cli-source-in-doubt = En duda: { $doubt }
cli-steps = Pasos
cli-step = { $title }: { $say }

cli-wiring = { $vehicle }: { $volts } V, { $title } ({ $connector })
cli-rating = Capacidad: { $rating }
cli-pins = Pines
cli-pins-of-rear-socket = Pines de la toma trasera
cli-pin-in-doubt = { $pin }? en duda: { $doubt }
cli-circuits = Circuitos
cli-bulbs = Focos y LED
# Cabezas de columnas.
cli-head-pin = pin
cli-head-colour = color
cli-head-does = función
cli-head-circuit = circuito
cli-head-lamps = luces
cli-head-housing = caja
cli-head-ground = tierra
cli-head-watts = vatios
cli-head-bulb = foco
cli-watts = { $watts } a { $volts } V
cli-led = LED
cli-usual-bulb = * no está en el archivo del vehículo: lo que tal luz suele llevar

# $why es la lectura que no cuadra, o nada.
cli-hold-within = Dentro del límite.
cli-hold-over = Pasa del límite. { CAPITAL($why) }
# $why es una de `hold-why` en air_hold.ftl, con su punto.
cli-hold-undecided = Sin decidir: { $why } { $seconds ->
    [none] { $reason ->
        [misread] Corríjala o repita la prueba.
       *[other] Cinco minutos no bastaron: vale la regla simple.
     }
   *[other] Siga { $seconds } s más.
 }
cli-hold-settling = { $reason ->
    [rising] Asentándose: la aguja sube; cierre la válvula de la fuente, deje asentar, recargue y empiece otra vez.
   *[cooling] Asentándose: se enfrió, como el aire recién cargado; deje asentar, recargue y empiece otra vez.
 }
cli-hold-rate = Cambio { $rate }: { $span }. Límite { $limit }, { $readings } lecturas en { $held } s.

cli-no-problems = Ningún problema.
cli-walk = { $id }  { $name }  { $answered }/{ $steps } respondidos, { $defects } defecto(s) abierto(s), { $phase }{ $ended ->
    [partial] , parcial
   *[whole] { "" }
 }
cli-walk-in-trouble = { $walk }: { $trouble }
cli-phase-unstarted = sin empezar
cli-phase-stepping = en curso
cli-phase-holding = en prueba de fuga
cli-phase-paused = en pausa
cli-phase-finished = terminado
cli-no-walk = Aquí aún no hay recorridos registrados.
cli-no-walk-listed = No se puede listar ningún recorrido.

# Causas probables, cada una en tres líneas.
cli-nothing-odd = Todo lo que se vio está como debe. Estas fallas no se habrían notado:
cli-cause = { $share } %  { $why }
cli-same-look = Por lo que se vio, estas se ven igual: { $faults }.
cli-more-causes = { $count } más
cli-next-thing = Lo que sigue: { $say } Se encuentra: { $outcomes }.
help-publish = poner en la base de datos de una flota los recorridos registrados aquí
help-fleet-address = de la base de datos: postgresql://USUARIO@SERVIDOR/BASE
help-pull = traer de la base de datos de una flota los recorridos de un vehículo a los registros de aquí
help-pull-vehicle = el id, la placa o el VIN del vehículo
help-pull-from = dirección de la base de datos (si no se dice, la última en la que se publicó)
cli-published = { $walks ->
    [one] 1 recorrido publicado
   *[other] { $walks } recorridos publicados
 } con { $facts ->
    [one] 1 dato
   *[other] { $facts } datos
 }; { $same } ya estaban.
