# A vehicle: its kind, sizes, class, wiring and brakes.

vehicle-kind-truck = Truck
vehicle-kind-bus = Bus
vehicle-kind-truck-tractor = Truck tractor
vehicle-kind-semitrailer = Semitrailer
vehicle-kind-full-trailer = Full trailer
vehicle-kind-pole-trailer = Pole trailer
vehicle-kind-converter-dolly = Converter dolly

# What people call a vehicle of this kind when they number theirs: a name such as "Trailer 8" is
# made of it and kept.
vehicle-noun-truck = Truck
vehicle-noun-bus = Bus
vehicle-noun-truck-tractor = Tractor
vehicle-noun-semitrailer = Trailer
vehicle-noun-full-trailer = Trailer
vehicle-noun-pole-trailer = Pole trailer
vehicle-noun-converter-dolly = Dolly

vehicle-about = { $kind }, { $volts } V, { $long } long{ $plated ->
    [yes] , { $plate }
   *[no] { "" }
 }
vehicle-kind-and-made = { $kind }, made { $month }
vehicle-month = { MONTH($month) } { $year }
vehicle-one-size = { $size }
vehicle-size = { $length } long, { $width } wide
# Gross vehicle weight rating.
vehicle-gvwr = GVWR { $mass }
vehicle-gvwr-not-known = GVWR not known
vehicle-plate = Plate { $plate }
vehicle-vin = VIN { $vin }
vehicle-model-year = Model year by the VIN: { EITHER($years) }.

# 49 CFR 393.11 Table 1, column heads (from memory).
vehicle-class-a = small truck or bus, narrower than 80 in
vehicle-class-b = large truck or bus, 80 in wide or more
vehicle-class-c = truck tractor
vehicle-class-d = large semitrailer or full trailer, 80 in wide or more
vehicle-class-e = converter dolly
vehicle-class-f = small semitrailer or full trailer, narrower than 80 in
vehicle-class-g = pole trailer
vehicle-class-h = load that reaches over the vehicle
vehicle-lamps-by-393-11 = Lamps by 49 CFR 393.11, class { $class_ }: { $meaning }
vehicle-lamps-by-r48 = Lamps by UN Regulation No. 48

vehicle-lamps = { $count } lamps: { ITEMS($counts) }
vehicle-reflectors = { $count } reflectors and strips of tape
# "2 clearance", "1 ABS": so many lamps of a kind.
vehicle-lamp-count = { $count } { $kind }
lamp-kind-headlamp = headlamp
lamp-kind-parking = parking
lamp-kind-turn = turn
lamp-kind-tail = tail
lamp-kind-stop = stop
lamp-kind-clearance = clearance
lamp-kind-identification = identification
lamp-kind-side-marker = side marker
lamp-kind-licence-plate = license plate
lamp-kind-backup = backup
lamp-kind-abs = ABS
lamp-kind-blackout-marker = blackout marker
lamp-kind-blackout-stop = blackout stop
lamp-kind-blackout-drive = blackout drive
lamp-kind-other = other
lamp-kind-reflector = reflector
lamp-kind-tape = tape

# What a circuit lights: "Tail (pin 6): 2 tail, 1 license plate".
vehicle-circuit = { CAPITAL($circuit) }{ $fed ->
    [pins] { " " }({ $pins })
    [doubtful-pins] { " " }({ $pins }, measure first)
   *[without-pins] { "" }
 }: { ITEMS($lamps) }
vehicle-plug = { $volts } V, { $plugs }; stop and turn { $wired ->
    [combined] combined
   *[separate] separate
 }; { $light ->
    [leds] LEDs
   *[bulbs] bulbs
 }

vehicle-axles = { $axles ->
    [one] 1 axle
   *[other] { $axles } axles
 }
vehicle-brakes = { $system ->
    [none] No brakes, { vehicle-axles }
    [air] Air brakes, { vehicle-axles }, { $springs ->
        [0] no spring brakes
       *[other] spring brakes on { $springs }
     }, { vehicle-abs }
    [air_over_hydraulic] Air over hydraulic brakes, { vehicle-axles }, { vehicle-abs }
    [electric] Electric brakes, { vehicle-axles }, { vehicle-abs }
   *[surge] Surge brakes, { vehicle-axles }, { vehicle-abs }
 }
vehicle-abs = { $abs ->
    [yes] ABS
   *[no] no ABS required
 }

vin-problem = { $what }; { $mend }
trouble-vin-wrong-length = the VIN has { $count } characters, 17 expected
vin-may-be-left-out = older and military units may leave vin out
trouble-vin-unused-character = character { $place } of the VIN is { $character }, which no VIN uses
vin-characters = a VIN has digits and letters other than I, O and Q
vin-digit-fits = { $digit } fits its check digit, compare with the plate
vin-digit-is-like-it = { $digit } is like it, compare with the plate
trouble-vin-check-digit = the VIN's check digit, character 9, is { $read } where { $fitting } would fit
vin-compare-each-character = one character was misread, compare each with the plate
