# Causas probables del aire que se pierde, y qué hacer después para distinguirlas.

# Lo que puede fugar, como está en una lista. $end: "eje 1, lado izquierdo".
leaks-part-gladhand-seal-red = empaque del acople rojo
leaks-part-gladhand-seal-blue = empaque del acople azul
leaks-part-hose-red = manguera roja
leaks-part-hose-blue = manguera azul
leaks-part-hose-parking = manguera de los frenos de estacionamiento
leaks-part-hose-cylinder = manguera del cilindro hidroneumático
leaks-part-test-hose-red = su propia manguera o manómetro rojo
leaks-part-test-hose-blue = su propia manguera o manómetro azul
leaks-part-rear-cock-red = llave de paso trasera de la roja
leaks-part-rear-cock-blue = llave de paso trasera de la azul
leaks-part-spring-brake-valve = válvula de frenos de resorte
leaks-part-spring-diaphragm = diafragma del freno de resorte, { $end }
leaks-part-service-diaphragm = diafragma de servicio, { $end }
leaks-part-chamber-hose = manguera de la cámara, { $end }
leaks-part-drain-tank = tanque o su drenaje
leaks-part-drain-primary = tanque primario o su drenaje
leaks-part-drain-secondary = tanque secundario o su drenaje
leaks-part-drain-supply = tanque de suministro o su drenaje
leaks-part-relay-valve = válvula relé
leaks-part-emergency-relay = válvula relé de emergencia
leaks-part-check-valve-tank = válvula de retención del tanque
leaks-part-check-valve-primary = válvula de retención del tanque primario
leaks-part-check-valve-secondary = válvula de retención del tanque secundario
leaks-part-tow-unit = la unidad motriz
leaks-part-trailer = lo que se remolca
leaks-part-governor = gobernador
leaks-part-dryer = secador de aire o descargador
leaks-part-foot-valve = válvula de pedal
leaks-part-parking-knob = válvula de la perilla de estacionamiento
leaks-part-supply-knob = válvula de la perilla de suministro
leaks-part-protection-valve = válvula de protección del tractor
leaks-part-cylinder = cilindro hidroneumático

# Por qué fugaría así.
leaks-why-gladhand-seal-red = Empaque del acople rojo. La roja siempre tiene aire: fuga con frenos liberados y aplicados.
leaks-why-gladhand-seal-blue = Empaque del acople azul. La azul tiene aire solo con los frenos aplicados, y fuga solo entonces.
leaks-why-hose-red = Manguera roja o una conexión de ella. La roja siempre tiene aire: fuga con frenos liberados y aplicados.
leaks-why-hose-blue = Manguera azul o una conexión de ella. La azul tiene aire solo con los frenos aplicados, y fuga solo entonces.
leaks-why-hose-parking = Manguera de los frenos de estacionamiento. Tiene aire solo mientras están liberados.
leaks-why-hose-cylinder = Manguera del cilindro hidroneumático. Tiene aire solo con el pedal pisado.
leaks-why-test-hose-red = Su propia manguera, manómetro o válvula roja: el remolque puede estar bien.
leaks-why-test-hose-blue = Su propia manguera, manómetro o válvula azul: el remolque puede estar bien.
leaks-why-rear-cock-red = Llave de paso o tapón de atrás, roja: deja salir aire por atrás.
leaks-why-rear-cock-blue = Llave de paso o tapón de atrás, azul: deja salir aire por atrás con los frenos aplicados.
leaks-why-spring-brake-valve = Válvula de frenos de resorte: saca aire de la roja por su escape, con frenos liberados y aplicados.
leaks-why-spring-diaphragm = Diafragma del freno de resorte, { $end }. Tiene aire solo mientras los frenos de estacionamiento están liberados. Nunca abra esa cámara: cámbiela completa.
leaks-why-service-diaphragm = Diafragma de servicio, { $end }. Tiene aire solo con los frenos aplicados; lo alimenta el tanque.
leaks-why-chamber-hose = Manguera de la cámara, { $end }. Tiene aire solo con los frenos aplicados; la alimenta el tanque.
leaks-why-drain-tank = Tanque, su drenaje o una conexión. El tanque siempre tiene aire, así que la roja baja despacio en las dos pruebas.
leaks-why-drain-primary = Tanque primario, su drenaje o una conexión: baja el primario, con frenos liberados y aplicados.
leaks-why-drain-secondary = Tanque secundario, su drenaje o una conexión: baja el secundario, con frenos liberados y aplicados.
leaks-why-drain-supply = Tanque de suministro, su drenaje o una conexión. Las válvulas de retención sostienen los otros tanques: ninguna aguja baja.
leaks-why-relay-valve = Válvula relé: un asiento fuga por su escape, con frenos liberados o aplicados, rara vez con ambos.
leaks-why-emergency-relay = Válvula relé de emergencia: un asiento o pistón fuga por su escape.
leaks-why-check-valve-tank = Válvula de retención del tanque: regresa aire por la roja cuando ella está vacía.
leaks-why-check-valve-primary = Válvula de retención del tanque primario: su aire regresa al compresor.
leaks-why-check-valve-secondary = Válvula de retención del tanque secundario: su aire regresa al compresor.
leaks-why-tow-unit = La propia unidad motriz: el remolque puede estar bien.
leaks-why-trailer = Lo que se remolca: tiene aire mientras la perilla de suministro está adentro.
leaks-why-governor = Gobernador: saca aire del tanque de suministro. Ninguna aguja baja.
leaks-why-dryer = Válvula de purga del secador, o el descargador: saca aire del lado de suministro. Ninguna aguja baja.
leaks-why-foot-valve = Válvula de pedal: un asiento fuga por su escape debajo de la cabina.
leaks-why-parking-knob = Válvula de la perilla de estacionamiento: fuga en el tablero, y bajan las dos agujas.
leaks-why-supply-knob = Válvula de la perilla de suministro: fuga en el tablero o hacia la roja, y bajan las dos agujas.
leaks-why-protection-valve = Válvula de protección del tractor: con la perilla de suministro afuera, sale aire por la azul.
leaks-why-cylinder = Cilindro hidroneumático: el sello de su pistón fuga con el pedal pisado.

# Dónde se oye algo, como está en un botón.
leaks-place-red-gladhand = acople rojo
leaks-place-blue-gladhand = acople azul
leaks-place-red-hose = manguera roja
leaks-place-blue-hose = manguera azul
leaks-place-test-hose = manguera propia
leaks-place-rear-gladhands = acoples traseros
leaks-place-relay-exhaust = escape de la válvula relé
leaks-place-spring-valve = válvula de frenos de resorte
leaks-place-tank = tanque
leaks-place-chamber = cámara
leaks-place-hose-end = manguera en una cámara
leaks-place-tow-unit = unidad motriz
leaks-place-trailer = lo que se remolca
leaks-place-tank-primary = tanque primario
leaks-place-tank-secondary = tanque secundario
leaks-place-tank-supply = tanque de suministro
leaks-place-governor = gobernador
leaks-place-dryer = secador, compresor
leaks-place-foot-valve = válvula de pedal
leaks-place-dash = tablero
leaks-place-park-hose = manguera del freno de estacionamiento
leaks-place-cylinder = cilindro hidroneumático
leaks-place-cylinder-hose = manguera del cilindro
leaks-place-nothing = nada
# En una rueda: "cámara, eje 1, lado izquierdo".
leaks-place-chamber-at = cámara, { $end }
leaks-place-hose-at = manguera de la cámara, { $end }

# Qué hacer después. Nadie mete la mano a las ruedas para esto, nada se abre con presión.
leaks-listen-released = Frenos liberados. Dé la vuelta por fuera de las ruedas y escuche.
leaks-listen-applied = Todos afuera. Frenos aplicados: dé la vuelta por fuera de las ruedas y escuche.
leaks-listen-dumped-shop = Todos lejos. Descargue la roja por su válvula de descarga, frenos aplicados: dé la vuelta por fuera y escuche.
leaks-listen-dumped-coupled = Todos lejos. Perilla de suministro afuera, frenos aplicados: dé la vuelta por fuera y escuche.
leaks-listen-dumped-own = Todos lejos. Freno de estacionamiento puesto, perilla de suministro afuera si tiene: dé la vuelta por fuera y escuche.
leaks-soap-released = Frenos liberados. Desde fuera de las ruedas, rocíe jabón en: { $place }.
leaks-soap-applied = Todos afuera. Frenos aplicados. Desde fuera de las ruedas, rocíe jabón en: { $place }.
leaks-plug-red = Todos lejos. Fuente cerrada, roja descargada: quite la roja del remolque, ponga un tapón en su propia manguera. Cárguela, cierre la fuente y mire la aguja.
leaks-plug-blue = Todos lejos. Fuente cerrada, azul purgada: quite la azul del remolque, ponga un tapón en su propia manguera. Cárguela, cierre la fuente y mire la aguja.
leaks-plug-rear = Todos lejos. Aire cerrado, roja y azul vacías: un tapón de presión en cada acople trasero. Cargue y repita la prueba.
leaks-hold-coupled = Todos lejos. Perilla de suministro afuera: repita la prueba, solo la unidad motriz.
leaks-hold-own = Todos lejos. Freno de estacionamiento puesto, perilla de suministro afuera si tiene: repita la prueba.
leaks-outcome-falls = la aguja baja
leaks-outcome-stands = la aguja no se mueve
leaks-outcome-bubbles = hay burbujas
leaks-outcome-none = sin burbujas
# La pantalla de lo que perdieron las pruebas de fuga.
leaks-title = ¿Por dónde fuga?
leaks-likeliest = Aire: lo más probable
leaks-hear-released = Frenos liberados: ¿dónde lo oye?
leaks-hear-applied = Frenos aplicados: ¿dónde lo oye?
leaks-which-chamber = ¿Qué cámara?
leaks-which-hose = ¿Qué manguera?
leaks-safe = Calzas puestas. Quede fuera de las ruedas, nadie debajo. No toque varillas ni ajustadores. No abra ninguna línea con presión.
leaks-none = Ninguna prueba de fuga pasa de su límite.

trouble-no-air-brakes = el vehículo no tiene frenos de aire
problem-name-vehicle-with-air = nombre un vehículo con frenos de aire
# $air: shop, coupled u own, como está en el archivo.
trouble-no-such-air = este vehículo no se prueba con aire { $air }
problem-lamps-and-air = está junto a lo que se vio de las luces
problem-write-two-cases = escriba dos archivos de caso, uno de las luces y otro del aire
trouble-unknown-gauge = esta prueba no tiene un manómetro { $name }
trouble-unknown-place = nada de este vehículo se oye en un lugar llamado { $name }
