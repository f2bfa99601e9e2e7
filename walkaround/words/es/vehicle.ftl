# Un vehículo: su tipo, medidas, clase, cableado y frenos.

vehicle-kind-truck = Camión
vehicle-kind-bus = Autobús
vehicle-kind-truck-tractor = Tractocamión
vehicle-kind-semitrailer = Semirremolque
vehicle-kind-full-trailer = Remolque completo
vehicle-kind-pole-trailer = Remolque de viga
vehicle-kind-converter-dolly = Dolly convertidor

# Cómo llama la gente a un vehículo de este tipo cuando numera los suyos: de ahí sale un nombre como
# "Remolque 8", que se guarda.
vehicle-noun-truck = Camión
vehicle-noun-bus = Autobús
vehicle-noun-truck-tractor = Tractor
vehicle-noun-semitrailer = Remolque
vehicle-noun-full-trailer = Remolque
vehicle-noun-pole-trailer = Remolque de viga
vehicle-noun-converter-dolly = Dolly

vehicle-about = { $kind }, { $volts } V, { $long } de largo{ $plated ->
    [yes] , { $plate }
   *[no] { "" }
 }
vehicle-kind-and-made = { $kind }, hecho en { $month }
vehicle-month = { MONTH($month) } { $year }
vehicle-one-size = { $size }
vehicle-size = { $length } de largo, { $width } de ancho
# Peso bruto vehicular nominal.
vehicle-gvwr = GVWR { $mass }
vehicle-gvwr-not-known = GVWR desconocido
vehicle-plate = Placa { $plate }
vehicle-vin = VIN { $vin }
vehicle-model-year = Año modelo según el VIN: { EITHER($years) }.

# 49 CFR 393.11 tabla 1, cabezas de columnas (de memoria).
vehicle-class-a = camión o autobús chico, de menos de 80 in de ancho
vehicle-class-b = camión o autobús grande, de 80 in de ancho o más
vehicle-class-c = tractocamión
vehicle-class-d = semirremolque o remolque completo grande, de 80 in de ancho o más
vehicle-class-e = dolly convertidor
vehicle-class-f = semirremolque o remolque completo chico, de menos de 80 in de ancho
vehicle-class-g = remolque de viga
vehicle-class-h = carga que sobresale del vehículo
vehicle-lamps-by-393-11 = Luces según 49 CFR 393.11, clase { $class_ }: { $meaning }
vehicle-lamps-by-r48 = Luces según el Reglamento n.º 48 de la ONU

vehicle-lamps = { $count } luces: { ITEMS($counts) }
vehicle-reflectors = { $count } reflectores y tiras de cinta
# "2 de gálibo", "1 de ABS": tantas luces de una clase.
vehicle-lamp-count = { $count } { $kind }
lamp-kind-headlamp = faros
lamp-kind-parking = de estacionamiento
lamp-kind-turn = de giro
lamp-kind-tail = de cola
lamp-kind-stop = de freno
lamp-kind-clearance = de gálibo
lamp-kind-identification = de identificación
lamp-kind-side-marker = de costado
lamp-kind-licence-plate = de placa
lamp-kind-backup = de reversa
lamp-kind-abs = de ABS
lamp-kind-blackout-marker = de posición de oscurecimiento
lamp-kind-blackout-stop = de freno de oscurecimiento
lamp-kind-blackout-drive = de marcha de oscurecimiento
lamp-kind-other = otras
lamp-kind-reflector = reflectores
lamp-kind-tape = cinta

# Lo que prende un circuito: "Luces de cola (pin 6): 2 de cola, 1 de placa".
vehicle-circuit = { CAPITAL($circuit) }{ $fed ->
    [pins] { " " }({ $pins })
    [doubtful-pins] { " " }({ $pins }, mida primero)
   *[without-pins] { "" }
 }: { ITEMS($lamps) }
vehicle-plug = { $volts } V, { $plugs }; freno y giro { $wired ->
    [combined] combinados
   *[separate] separados
 }; { $light ->
    [leds] LED
   *[bulbs] focos
 }

vehicle-axles = { $axles ->
    [one] 1 eje
   *[other] { $axles } ejes
 }
vehicle-brakes = { $system ->
    [none] Sin frenos, { vehicle-axles }
    [air] Frenos de aire, { vehicle-axles }, { $springs ->
        [0] sin frenos de resorte
       *[other] frenos de resorte en { $springs }
     }, { vehicle-abs }
    [air_over_hydraulic] Frenos de aire sobre hidráulico, { vehicle-axles }, { vehicle-abs }
    [electric] Frenos eléctricos, { vehicle-axles }, { vehicle-abs }
   *[surge] Frenos de inercia, { vehicle-axles }, { vehicle-abs }
 }
vehicle-abs = { $abs ->
    [yes] ABS
   *[no] ABS no obligatorio
 }

vin-problem = { $what }; { $mend }
trouble-vin-wrong-length = el VIN tiene { $count } caracteres y debe tener 17
vin-may-be-left-out = las unidades viejas y militares pueden omitir vin
trouble-vin-unused-character = el carácter { $place } del VIN es { $character }, que ningún VIN usa
vin-characters = un VIN tiene cifras y letras que no sean I, O ni Q
vin-digit-fits = { $digit } va con su dígito verificador; compare con la placa
vin-digit-is-like-it = { $digit } se le parece; compare con la placa
trouble-vin-check-digit = el dígito verificador del VIN, el carácter 9, es { $read } y debería ser { $fitting }
vin-compare-each-character = se leyó mal un carácter; compare cada uno con la placa
