# Lo que se pregunta de un vehículo que se hace o se cambia, y lo que se puede elegir.

field-part-papers = Nombre y papeles
field-part-vehicle = Vehículo
field-part-lamps = Luces
field-part-brakes = Frenos
field-part-state = Estado
field-part-seldom = Pocas veces hace falta

# Cómo se llama cada campo, encima de su valor.
field-name = Nombre
field-plate = Placa
field-vin = VIN
field-kind = Tipo
field-made = Fecha de fabricación
field-width-mm = Ancho
field-length-mm = Largo
field-gvwr-kg = Peso bruto (GVWR)
field-electrical-connector = Conector
field-electrical-volts = Voltaje
field-electrical-stop-turn = Luces de freno y de giro
# De qué viene la luz: focos o LED.
field-electrical-led = La luz es de
field-electrical-blackout = Luces de oscurecimiento
field-brakes-system = Frenos
field-brakes-axles = Ejes
# Le sigue el número de un eje.
field-brakes-axles-spring = Frenos de resorte en el eje
field-brakes-axles-lift = Ejes que se levantan
field-brakes-axles-actuator = Cámaras de freno
field-brakes-axles-type = Tamaño de cámara
# Le sigue el número de un eje.
field-brakes-axles-long-stroke = Cámaras de carrera larga en el eje
field-brakes-axles-rated-stroke-in = Carrera marcada en ella
field-brakes-axles-slack = Ajustadores
field-brakes-axles-foundation = Frenos de rueda
field-brakes-reservoir-l = Tanques de aire
field-brakes-abs = ABS
field-damage = Daños
field-notes = Notas
field-rules = Reglas de luces
field-electrical-second-connector = Segundo conector
field-cab-width-mm = Ancho de la cabina
field-double-faced-turn = Direccionales de dos caras
field-towed-singly = Se remolca sin otro remolque
field-hides-towing-lamps = Tapa las direccionales de adelante
field-towing-lamps-above-load = Las luces de adelante se ven sobre la carga
field-boat = Remolque de lancha, luces a media altura del lado
field-living-or-office = Para vivir o trabajar
field-rear-plate = Placa atrás
field-rear-guard = Defensa trasera
field-body = Carrocería
field-own-words = O en sus propias palabras

# Lo que un vehículo dice de un campo.
field-differs = Cambia de eje a eje
field-several = { $values }
field-no-value = Sin dato
# Qué está mal en un campo, a su lado: con el campo como sujeto, o como frase propia.
field-is-wrong = { $field } { $what }; { $mend }.
field-wrong = { CAPITAL($what) }; { $mend }.

choice-yes = Sí
choice-no = No
choice-not-known = No se sabe
choice-none = Ninguno
# Cómo están conectadas las luces de freno y de giro.
choice-separate = Separadas
choice-combined = Combinadas
choice-bulbs = Focos
choice-leds = LED
# Sistemas de frenos.
choice-air = Aire
choice-air-over-hydraulic = Aire sobre hidráulico
choice-electric = Eléctricos
choice-surge = De inercia
# Cámaras de freno.
choice-clamp = Abrazadera
choice-bolt = Atornillada
choice-roto = Rotativa
choice-dd3 = DD3
choice-wedge = Cuña
choice-other = Otra
# Carrocerías de remolques.
choice-van = Caja cerrada
choice-platform = Plataforma sin mampara
choice-container-chassis = Chasis de contenedores
choice-tank = Tanque
choice-type = Tipo { $size }
choice-not-marked = Sin marca
# Ajustadores.
choice-automatic = Automático
choice-manual = Manual
# Frenos de rueda.
choice-drum = Tambor
choice-disc = Disco
# Si lleva ABS: según lo que pide su fecha de fabricación.
choice-by-date = Por fecha
choice-fitted = Lo lleva
choice-not-fitted = No lo lleva
garage-connector = { $standard }, { EITHER($volts) }

# Daños: qué, y dónde. Quedan en el archivo de un vehículo como se dijeron.
hurt-dented = Abollado
hurt-bent = Doblado
hurt-cracked = Rajado
hurt-torn = Roto
hurt-rusted = Oxidado
hurt-loose = Flojo
hurt-missing = Falta
hurt-repaired = Reparado
hurt-at-front = adelante
hurt-at-front-right = adelante a la derecha
hurt-at-right-side = lado derecho
hurt-at-rear-right = atrás a la derecha
hurt-at-rear = atrás
hurt-at-rear-left = atrás a la izquierda
hurt-at-left-side = lado izquierdo
hurt-at-front-left = adelante a la izquierda
hurt-at-underneath = por debajo
hurt-at-bumper = parachoques
hurt-at-tape = cinta reflectante
hurt-at-cable-or-hose = cable o manguera
