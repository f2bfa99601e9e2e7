# Palabras en los dibujos, y dibujos en palabras para quien oye la pantalla.

# En el plano, en mayúsculas; cortas, porque hay poco lugar.
picture-you = USTED
picture-front = FRENTE
picture-rear = ATRÁS
picture-left = IZQ.
picture-right = DER.
picture-plan = Plano de { $vehicle }, visto desde arriba: { $where }, { $count ->
    [one] 1 lugar marcado
   *[other] { $count } lugares marcados
 }
picture-end = { CAPITAL($where) } de { $vehicle } como usted lo ve, { $count ->
    [one] 1 lugar marcado
   *[other] { $count } lugares marcados
 }
picture-plan-without-marks = Plano de { $vehicle }, visto desde arriba: usted está en: { $where }
picture-at-front = frente
picture-at-right-side = lado derecho
picture-at-rear = parte de atrás
picture-at-left-side = lado izquierdo
picture-at-cab = cabina
picture-at-source = fuente de aire

# La cara de un conector.
face-into-socket = Mirando dentro de la toma del vehículo
face-into-plug = Mirando dentro del enchufe
face-contacts-of-socket = Contactos de la toma del vehículo
face-contacts-of-plug = Contactos del enchufe
face-lid-at-top = Bisagra de la tapa arriba
face-notch-at-top = Muesca arriba
face-notch-at-bottom = Muesca abajo
face-not-to-scale = Dibujo sin escala: { face-go-by }
face-memory = { $upright }. De memoria: { face-go-by }
face-read = { $upright }. Si hay duda, { face-go-by }
face-go-by = guíese por { $marks ->
    [letters] las letras
   *[numbers] los números
 } junto a los contactos.
face-of = { $caption }, { $title }
face-contact = contacto { $contact }{ $place ->
    [center] { " " }en el centro
    [hour] { " " }a las { $hour } del reloj
   *[unknown] { "" }
 }: { $function }{ $doubt ->
    [yes] , en duda
   *[no] { "" }
 }
face-also-in-doubt = también en duda: { ITEMS($contacts) }
# Contactos, una frase cada uno, y cuánto confiar en el dibujo.
face-told = { $contacts }. { $advice }
# Dibujos de piezas, para quien oye la pantalla.
drawn-dial = Dibujo de un manómetro con sus rayas
drawn-gladhand = Dibujo de un acople: empaque de hule y uña de cierre
drawn-slack-adjuster = Dibujo de un ajustador, con su varilla marcada en la cara de la cámara
drawn-stroke = Dibujo de una varilla afuera: mida de la cara de la cámara a la marca
drawn-drain = Dibujo de un tanque con su drenaje abierto
drawn-chock = Dibujo de una rueda entre dos calzas
drawn-spring-chamber = Dibujo de una cámara de freno de resorte con su tornillo de liberación
drawn-abs-lamp = Dibujo de una luz del ABS en el lado de un remolque
