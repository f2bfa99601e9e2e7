# Posiciones de los interruptores que prenden las luces de un vehículo, y vueltas al vehículo.

# Lo que se pone: "luces de estacionamiento, giro izquierdo".
rounds-setting = { ITEMS($positions) }
# Cómo se pone: órdenes, y que todos los demás interruptores están apagados.
rounds-orders = { CAPITAL($orders) }.
rounds-all-else-off = lo demás apagado
# Una orden, y cómo se deja así el interruptor sin nadie en la cabina.
rounds-order-kept = { $order } ({ $keep })

# Los interruptores de una caja, uno por circuito.
rounds-on = prenda { $circuit }
rounds-flashing = prenda { $circuit } intermitente

# Por qué tantas vueltas.
rounds-none = Ninguna vuelta: { $source } no prende ningún circuito de este vehículo.
rounds-settings-spot = { $count ->
    [one] Una vuelta, una posición que se pone en cada lugar.
   *[other] Una vuelta, { SPELLED($count) } posiciones que se ponen en cada lugar.
 }
rounds-settings-called = { $count ->
    [one] Una vuelta, una posición que se pide en cada lugar.
   *[other] Una vuelta, { SPELLED($count) } posiciones que se piden en cada lugar.
 }
# $order es lo que se pone en cada vuelta, unido por el mensaje siguiente.
rounds-from-cab = { $count ->
    [one] Una vuelta: { $order }.
   *[other] { CAPITAL(SPELLED($count)) } vueltas: { $order }.
 }
rounds-then = { $first }; luego { $then }
# Interruptores que por sí solos no se quedan como se ponen.
rounds-from-cab-held = { $count ->
    [one] Una vuelta: { $order }; hay que sostener o trabar { $switches }.
   *[other] { CAPITAL(SPELLED($count)) } vueltas: { $order }; hay que sostener o trabar { $switches }.
 }
rounds-the-switch = { $switch }

# Por qué dos circuitos no se distinguen.
rounds-never-apart = { $source } nunca prende { $one } sin { $other }
