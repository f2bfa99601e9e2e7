# Luces, circuitos y contactos, y los pasos en ellos.

# Frases que pueden llevar comas: órdenes en los interruptores, dudas sobre contactos.
clauses = { $first }; { $then }

# Un lado, como adjetivo de "lado".
side-left = izquierdo
side-right = derecho
side-centre = central

# Una luz con el lado en que está: "luz de cola izquierda", "reflector izquierdo".
lamp-on-side = { $lamp } { FIRST($lamp) ->
    [luz] { $side ->
        [izquierdo] izquierda
        [derecho] derecha
       *[central] central
     }
    [cinta] { $side ->
        [izquierdo] izquierda
        [derecho] derecha
       *[central] central
     }
   *[reflector] { $side }
 }
# Luces que se repiten a lo largo de un lado, contadas desde el frente.
lamp-in-row = { $lamp } { $number }
# Varias luces en una misma caja: "luz de cola izquierda y luz de freno izquierda".
lamp-names = { $names }
# Una direccional que parpadea en la misma caja que una luz fija.
lamp-over-steady = { $flashing }, sobre { $steady }
lamp-any-other = cualquier otra luz aquí
lamp-anything-else = cualquier otra cosa aquí

# Cómo se llaman las luces al decirlas, sin lado. Varias en una caja: "luz de cola y de freno".
lamp-said-together = luz { REST($names) }
# Luces que parpadean en una caja: "luz de freno y de giro".
lamp-said-signal = { $one } y { REST($other) }
# Una señal que parpadea sobre una luz fija.
lamp-said-over = { $flashing } sobre { $steady }

# Contactos de un conector: "pin 7", "pines A y C".
lamp-pins = { $count ->
    [one] pin { $pins }
   *[other] pines { $pins }
 }
# Por qué hay duda sobre contactos: "pines A y C: la norma les da dos usos".
lamp-doubt = { $pins }: { $doubt }

# Circuitos, como están en una frase: "prenda luces de freno".
circuit-marker = luces de gálibo y de costado
circuit-tail = luces de cola
circuit-tail-left = luces de cola izquierdas
circuit-tail-right = luces de cola derechas
circuit-left-turn = luz de giro izquierda
circuit-left-stop-turn = freno y giro izquierdo
circuit-right-turn = luz de giro derecha
circuit-right-stop-turn = freno y giro derecho
circuit-stop = luces de freno
circuit-left-stop = luz de freno izquierda
circuit-right-stop = luz de freno derecha
circuit-backup = luces de reversa
circuit-blackout-marker = luces de posición de oscurecimiento
circuit-blackout-stop = luz de freno de oscurecimiento
circuit-abs = corriente del ABS
circuit-headlamp = luces bajas
circuit-parking = luces de estacionamiento
circuit-blackout-drive = luz de marcha de oscurecimiento
circuit-blackout-switch = interruptor de oscurecimiento
circuit-fog = luz antiniebla
circuit-aux = auxiliar
circuit-permanent = corriente directa
circuit-ignition = corriente de la llave
circuit-brake = control de frenos
# Uno de varios contactos con la misma función que no están unidos.
circuit-at-pin = { $circuit }, pin { $pin }
circuit-second-connector = { $circuit }, segundo conector
# Lo que alimenta un circuito que no llega a sus luces por ningún conector.
circuit-own = el circuito propio de la unidad motriz
circuit-abs-by-itself = ABS alimentado por su propio conector

# Dónde pararse, al final de un título.
lamp-spot-front = adelante
lamp-spot-right-side = lado derecho
lamp-spot-rear = atrás
lamp-spot-left-side = lado izquierdo
lamp-spot-mirror = en el espejo

# Títulos: qué se prende, y dónde pararse.
lamp-step = { CAPITAL($what) }, { $spot }
lamp-step-reflectors = Reflectores, { $spot }
lamp-step-abs = Luz del ABS, { $spot }
lamp-step-abs-by-stop = Luz del ABS con el circuito de freno, { $spot }
lamp-step-out-of-reverse = Quitar la reversa
lamp-step-all-off = Pedal arriba, todo apagado
lamp-all-at-once = todo a la vez

# Cómo se prenden los circuitos.
lamp-call-out = Pida: { $setting }
lamp-circuit-on-called = Pida: { $circuit }.
lamp-circuit-on-cab = Desde la cabina, prenda { $circuit }.
lamp-circuit-on-spot = Prenda { $circuit }.
# La luz del ABS, con su propia corriente y solo con el circuito de freno.
lamp-abs-on-spot = Prenda { $circuit }; lo demás apagado.
lamp-abs-on-called = Pida: pedal arriba, interruptores apagados, llave apagada y luego en encendido.
lamp-abs-on-cab = Llave apagada y luego en encendido.
lamp-abs-by-stop-on-spot = Prenda solo { $circuit }.
lamp-abs-by-stop-on-called = Pida: llave apagada, pedal de freno apenas hasta que prendan las luces de freno.
lamp-abs-by-stop-on-cab = Llave apagada; pise el freno apenas hasta que prendan las luces de freno.
# Después de la reversa, antes que nada.
lamp-out-of-reverse-cab = En la cabina: neutral, sin reversa, freno de estacionamiento puesto.
lamp-out-of-reverse-called = Pida: neutral, sin reversa, freno de estacionamiento puesto.
lamp-out-of-reverse-long = { $order } Una velocidad que queda puesta mueve el vehículo en cuanto alguien arranca el motor, encima de quien esté atrás.
# Después de la última mirada con un pedal pisado.
lamp-all-off-cab = En la cabina: quite el puntal del pedal, apague los interruptores, saque la llave.
lamp-all-off-called = Pida: pedal arriba, interruptores apagados, llave afuera.
lamp-all-off-long = { $order } Un pedal que queda pisado aplica los frenos en cuanto hay aire, con alguien en las ruedas.

# Por qué tantas vueltas.
lamp-one-round-spot = Una vuelta; los circuitos se prenden en cada lugar.
lamp-one-round-called = Una vuelta; los circuitos se piden en cada lugar.
lamp-one-circuit-one-round = Un circuito, una vuelta.

# Lo que una fuente de corriente no puede mostrar.
lamp-not-told-apart = { $one } no se distingue de { $other }: { $reason }
lamp-not-seen-steady = { $circuit } no se puede ver con luz fija
lamp-not-seen-flashing = { $circuit } no se puede ver parpadear

# La toma trasera de un vehículo que remolca.
socket-contact = { $pins }, { $circuit }
socket-passes-on = La toma trasera pasa lo que recibe
socket-passes-on-in-turn = Toma trasera, lámpara de prueba. Alimente adelante un circuito tras otro: sale aquí, y ningún otro.
socket-passes-on-in-turn-long = Toma trasera, lámpara de prueba. Alimente adelante un circuito tras otro: sale aquí, y ningún otro. Ponga la lámpara de prueba entre tierra y cada contacto. Lo que el dolly no pasa, el remolque de atrás no lo tiene: ni luces ni ABS. Un contacto con corriente de otro circuito es un cable cruzado o puenteado.
socket-passes-on-in-turn-brisk = Toma trasera: cada circuito sale, ningún otro.
socket-passes-on-at-once = Toma trasera, lámpara de prueba. Prendido como en la última mirada, cada circuito de luces tiene corriente.
socket-passes-on-at-once-long = Toma trasera, lámpara de prueba. Prendido como en la última mirada, cada circuito de luces tiene corriente. Ponga la lámpara de prueba entre tierra y cada contacto. Lo que el dolly no pasa, el remolque de atrás no lo tiene.
socket-passes-on-at-once-brisk = Toma trasera: todos los circuitos con corriente.
socket-abs-feed = { CAPITAL($pins) } con corriente, llave en encendido
socket-abs-feed-short = Toma trasera, llave en encendido: { $pins } con corriente.
socket-abs-feed-long = Toma trasera, llave en encendido: { $pins } con corriente. Mida de ahí al contacto de tierra: voltaje de batería. Alimenta el ABS del remolque; sin él, el remolque frena sin ABS y su luz queda apagada.
socket-abs-feed-brisk = Toma trasera: { $pins } con corriente.
