# What is asked of a vehicle that is made or edited, and what can be chosen.

field-part-papers = Name and papers
field-part-vehicle = Vehicle
field-part-lamps = Lamps
field-part-brakes = Brakes
field-part-state = State
field-part-seldom = Seldom needed

# What each field is called, above its value.
field-name = Name
field-plate = License plate
field-vin = VIN
field-kind = Kind
field-made = Made
field-width-mm = Width
field-length-mm = Length
field-gvwr-kg = Gross weight (GVWR)
field-electrical-connector = Connector
field-electrical-volts = Voltage
field-electrical-stop-turn = Stop and turn lamps
# What the light comes from: bulbs or LEDs.
field-electrical-led = Light from
field-electrical-blackout = Blackout lamps
field-brakes-system = Brakes
field-brakes-axles = Axles
# Followed by an axle's number.
field-brakes-axles-spring = Spring brakes on axle
field-brakes-axles-lift = Axles that lift
field-brakes-axles-actuator = Brake chambers
field-brakes-axles-type = Chamber size
# Followed by an axle's number.
field-brakes-axles-long-stroke = Long-stroke chambers on axle
field-brakes-axles-rated-stroke-in = Stroke marked on it
field-brakes-axles-slack = Slack adjusters
field-brakes-axles-foundation = Wheel brakes
field-brakes-reservoir-l = Air reservoirs
field-brakes-abs = ABS
field-damage = Damage
field-notes = Notes
field-rules = Lamp rules
field-electrical-second-connector = Second connector
field-cab-width-mm = Cab width
field-double-faced-turn = Double-faced turn signals
field-towed-singly = Towed with no trailer
field-hides-towing-lamps = Hides turn signals ahead
field-towing-lamps-above-load = Lamps ahead show over the load
field-boat = Boat trailer, lamps mid-side
field-living-or-office = To live or work in
field-rear-plate = License plate at the rear
field-rear-guard = Underride guard at the rear
field-body = Body
field-own-words = Or in your own words

# What a vehicle says for a field.
field-differs = Differs from axle to axle
field-several = { $values }
field-no-value = None told
# What is wrong with a field, beside it: with the field as its subject, or as a sentence of its own.
field-is-wrong = { $field } { $what }; { $mend }.
field-wrong = { CAPITAL($what) }; { $mend }.

choice-yes = Yes
choice-no = No
choice-not-known = Not known
choice-none = None
# How stop and turn lamps are wired.
choice-separate = Separate
choice-combined = Combined
choice-bulbs = Bulbs
choice-leds = LEDs
# Brake systems.
choice-air = Air
choice-air-over-hydraulic = Air over hydraulic
choice-electric = Electric
choice-surge = Surge
# Brake chambers.
choice-clamp = Clamp
choice-bolt = Bolt
choice-roto = Roto
choice-dd3 = DD3
choice-wedge = Wedge
choice-other = Other
# Bodies of trailers.
choice-van = Box or van
choice-platform = Flat deck, no bulkhead
choice-container-chassis = Container chassis
choice-tank = Tank
choice-type = Type { $size }
choice-not-marked = Not marked
# Slack adjusters.
choice-automatic = Automatic
choice-manual = Manual
# Wheel brakes.
choice-drum = Drum
choice-disc = Disc
# Whether ABS is fitted: as its date of make requires.
choice-by-date = By date
choice-fitted = Fitted
choice-not-fitted = Not fitted
garage-connector = { $standard }, { EITHER($volts) }

# Damage: what, and where. They stand in a vehicle's file as they were said.
hurt-dented = Dented
hurt-bent = Bent
hurt-cracked = Cracked
hurt-torn = Torn
hurt-rusted = Rusted
hurt-loose = Loose
hurt-missing = Missing
hurt-repaired = Repaired
hurt-at-front = front
hurt-at-front-right = front right
hurt-at-right-side = right side
hurt-at-rear-right = rear right
hurt-at-rear = rear
hurt-at-rear-left = rear left
hurt-at-left-side = left side
hurt-at-front-left = front left
hurt-at-underneath = underneath
hurt-at-bumper = bumper
hurt-at-tape = reflective tape
hurt-at-cable-or-hose = cable or hose
