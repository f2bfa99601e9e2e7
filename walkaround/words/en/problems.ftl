# What is wrong with a value that a person wrote, and how to mend it: two clauses of the message
# `problem`, the second an instruction, neither with a full stop. What is wrong has the key or the
# field as its subject ("width_mm: is missing", "Width is missing"); a message called trouble-...
# is a sentence of its own.

problem-is-missing = is missing
problem-add-the-key = add the key { $key }
trouble-no-such-key = there is no such key
problem-perhaps = perhaps { $name } is meant
problem-use-one-of = use one of: { ITEMS($names) }
problem-not-allowed = is { $value }, which is not allowed here
problem-other-fault = is { $value }: { $fault }
problem-correct-the-value = correct the value

# A value as it stands in the file, where that would be too long.
problem-value-table = a table
problem-value-list = a list

problem-is = is { $value }
problem-write-above = write a number above { $bound }
problem-write-not-below = write a number not below { $bound }
problem-write-not-above = write a number not above { $bound }

problem-needs-finite-number = is { $value } where a finite number is needed
problem-write-finite-number = write a number
problem-needs-id = is { $value } where a plain id is needed
problem-write-id = write small letters, digits and underscores only
problem-needs-text = is { $value } where text is needed
problem-write-text = put the text in quotes
problem-needs-number = is { $value } where a number is needed
problem-write-number = write a number of ordinary size, without quotes
problem-needs-whole-number = is { $value } where a whole number is needed
problem-write-whole-number = write a whole number without quotes
problem-needs-true-or-false = is { $value } where true or false is needed
problem-write-true-or-false = write true or false without quotes
problem-needs-date = is { $value } where a date is needed
problem-write-date = write it as year-month-day, such as 2011-04-01
problem-needs-list = is { $value } where a list is needed
problem-write-list = put the values in [square brackets]
problem-needs-table = is { $value } where a table is needed
problem-write-table = write it as a [table] or as { "{" } key = value { "}" }

# What keeps a file from being read, and how to mend it.
file-holds-nothing = holds nothing
file-mend-holds-nothing = fill it in or delete it
file-no-plain-file = cannot be read (it is no file)
file-mend-no-plain-file = check that it is a file you may read
file-no-such-file = there is no such file
file-mend-no-such-file = check the path
file-no-text-file = is not a text file
file-mend-no-text-file = write it as TOML text
file-not-utf-8 = holds characters that are not UTF-8
file-mend-not-utf-8 = save it as UTF-8 text
file-key-of-too-many-parts = a key has too many parts
file-mend-key-of-too-many-parts = flatten the tables
file-tables-nested-too-deep = tables are nested too deep
file-mend-tables-nested-too-deep = flatten them
file-number-too-long = holds a number of thousands of digits
file-mend-number-too-long = write one of ordinary size
# In brackets: why, as the computer says it.
problem-cannot-be-read = cannot be read ({ $reason })
problem-check-that-you-may-read-it = check that it is a file you may read
trouble-not-valid-toml = this is not valid TOML ({ $fault })
problem-correct-the-line = correct the line, quotes and brackets first
problem-larger-than = is larger than { $kb } kB
problem-split-it = split it into smaller files

# Too much of something, and texts and numbers that cannot be.
problem-nested-too-deep = is nested too deep
problem-flatten-it = flatten it
problem-too-many-things = holds { NUMBER($count, useGrouping: 0) } things, { NUMBER($most, useGrouping: 0) } at most
problem-keep-what-is-needed = keep what is needed, or split the file
problem-too-many-values = holds more than { NUMBER($most, useGrouping: 0) } values
problem-more-problems = has { NUMBER($count, useGrouping: 0) } more problems
problem-mend-these-first = mend these first, then check again
problem-number-too-large = is a number too large to be meant
problem-write-one-up-to = write one up to { $most }
problem-line-break-or-tab = holds a line break or a tab
problem-write-in-one-line = write it in one line, with blanks
problem-hidden-character = holds { $character }, which is not seen
problem-take-that-character-out = take that character out
problem-too-many-characters = has { NUMBER($count, useGrouping: 0) } characters, { NUMBER($most, useGrouping: 0) } at most
problem-say-it-shorter = say it shorter
problem-write-from-to = write a value from { $least } to { $most }

# Two things with one id.
trouble-id-is-taken = { $id } is already the id of { $file }
problem-give-one-another-id = give one of them another id
trouble-lamp-rule-is-elsewhere = { $file } has a lamp rule of this id, which is the one that counts
problem-give-this-one-another-id = give this one another id

problem-choose-a-vehicle-file = choose a vehicle file
problem-vehicle-is-not-own = was not made in this app, or has been deleted
problem-copy-a-vehicle = copy a vehicle and change the copy

# Brake chambers; the words in quotes stand in files.
problem-no-stroke = is { $value }, not the stroke of a brake chamber in inches
problem-unlisted-type = is { $type }, which no stroke table lists for a { $actuator } chamber
problem-type-or-other = { $near }, or set actuator = "other" and rated_stroke_in
problem-unlisted-long-stroke = is true, but no table lists a long-stroke { $actuator } chamber { $type }
problem-false-or-correct-type = set it to false or correct type
problem-missing-and-unlisted = is missing, and no table lists such an actuator
problem-give-the-rated-stroke = give the rated stroke marked on the actuator, in inches
problem-give-one-of = give one of: { ITEMS($names) }

# Bulbs, by their trade numbers.
problem-bulb-of-other-volts = is { $bulb }, a { $of } V bulb in a { $volts } V vehicle
problem-correct-the-bulb = correct the number or volts; { $volts } V bulbs: { ITEMS($bulbs) }
problem-unlisted-bulb = is { $bulb }, which the bulb table lacks
problem-bulb-or-led = { $near }, or write "led"

# What the checks of every file say.
problem-too-many = stands { NUMBER($count, useGrouping: 0) } times, { $most } at most
problem-stands-twice = stands { $count ->
    [2] twice
   *[other] { $count } times
 }
problem-give-each-its-own-id = give each its own id
problem-is-empty = is empty
problem-write-the-text = write the text
problem-write-at-most = write { $most } at most
problem-is-not = is { $value }, not { $meant }
problem-take-it-out = take it out
trouble-unknown-connector = no connector is called { $name }
trouble-unknown-circuit = no circuit is called { $name }
trouble-unknown-circuit-of = no circuit of { $owner } is called { $name }
trouble-unknown-circuit-of-vehicle = no circuit of the vehicle is called { $name }
trouble-unknown-other-step = no other step of this file is called { $name }
trouble-unknown-limit = no limit of that step is called { $name }
trouble-unknown-source = no source with switches in this file is called { $name }
trouble-unknown-switch = no switch or position of this source is called { $name }

# Vehicles.
problem-tap-a-name = tap one of the names or type one
problem-name-of-another = is that of another vehicle, { $name }
problem-give-each-its-own-name = give each its own name
problem-keep-what-the-vehicle-has = keep what the vehicle has
# After "is 25910, not ...".
problem-meant-size = the size of a road vehicle
problem-meant-volume = the volume of a reservoir in liters
# Kinds of vehicle as files name them.
problem-is-for-kinds = is for a { EITHER($kinds) }
problem-take-it-out-or-correct-kind = take it out or correct kind
problem-correct-the-date = correct the date of make
problem-day-to-come = is { $day }, a day to come
problem-day-too-early = is { $day }, before there were such vehicles
problem-bulb-of-no-lamp = is neither a kind of lamp nor a lamp of this vehicle

# Checklists; the words in quotes and with an underscore stand in files.
problem-split-the-file = split the file
problem-keep-it-short = keep it to what the hands do, the rest belongs in long
trouble-placeholder-unfilled = nothing fills the placeholder { $placeholder }
problem-use-a-placeholder = use one of { ITEMS($names) }, or { problem-write-a-quantity }
problem-write-a-quantity = write a quantity as { "{110 psi}" }, { "{80 to 90 psi}" } or { "{1 7/8 in}" }
problem-set-true = set { $key } = true
trouble-axles-share-the-id = all axles would share this id
problem-put-axle-in-id = put { "{axle}" } in the id
trouble-ends-share-the-id = both ends of an axle would share this id
problem-put-side-in-id = put { "{side}" } in the id
trouble-lamp-step-written = lamp steps are not written in files
problem-write-a-lamp-rule = write a [[lamp]] rule, the steps follow from it
problem-spread-places-others = is { $quantity }, but spread { $spread } places { $places }
problem-make-them-agree = make quantity and spread agree
problem-spread-not-of-sides = is { $spread }, which the sides do not have
problem-use-pair-left-right = use pair, left or right
problem-stands-in-a-row-for-end = stands in a row for the { $end }
problem-take-it-out-or-set-side = take it out or set end = "side"
problem-holds-for-every-vehicle = holds for every vehicle
problem-say-for-which = say for which, or write it into the row

# What a checklist measures.
problem-add-the-table-or-change-kind = add the { $table } table or change kind
problem-stands-in-kind = stands in a step of kind { $kind }
problem-take-it-out-or-set-kind = take it out or set kind = "{ $kind }"
trouble-no-must-hold = an air hold cannot be a must
trouble-no-must-measure = a measured step cannot be a must
trouble-no-must-wait = a wait cannot be a must
trouble-no-must-gauges = the step of the gauges cannot be a must
problem-set-must-false = set must = false
problem-bounds-nothing = bounds nothing
problem-add-a-bound = add at_least or at_most
problem-above-at-most = is { $value }, above at_most
problem-write-the-lower-bound = write the lower bound there
problem-is-no-loss = is no loss of pressure
problem-write-a-loss = write at_most in psi/min, above 0
problem-name-the-gauges = name the gauges that are read
problem-is-read-off-no-gauge = is read off no gauge
problem-names-a-gauge-twice = names a gauge twice
problem-name-each-once = name each once
problem-is-no-drop = is no drop of pressure
problem-goes-with-a-length = goes with a length, and with nothing else
problem-write-strokes = write limits_from = "strokes"
problem-set-quantity-in = set quantity = "in"
problem-is-of-one-wheel-end = is the limit of one wheel end's chamber
problem-stands-beside-limits-from = stands beside limits_from, which counts
problem-no-time-is-taken = is { $value }, but no time is taken
problem-write-what-is-tapped = write what is tapped then

# Connectors, and how a vehicle's lamps are wired.
problem-keep-what-is-used = keep what is used
problem-other-count-of-pins = is { $count }, but { $listed } pins are listed
problem-list-every-pin = list every pin, with fn NC where nothing is connected
problem-keep-one = keep one
problem-keep-one-of-them = keep one of them
problem-names-one-way = names { $other }, which does not name { $own }
problem-name-each-or-neither = name each in the other, or neither
problem-connector-of-other-volts = is { $volts }, but { $connector } is a { $nominal } V connector
problem-correct-volts-or-connector = correct volts or name the connector as wired
problem-connector-combines = is separate, but { $connector } feeds stop and turn on the same contacts
problem-set-combined-or-connector = set stop_turn = "combined" or name the connector as wired
problem-connector-without-blackout = is true, but { $connector } has no blackout contacts
problem-false-or-connector = set it to false or name the connector as wired
problem-says-nothing = says nothing
problem-write-circuit-or-cluster = write its circuit or its cluster, or take it out
problem-no-table-of-lamps = is { $rules }, and no table here says which lamps a { $kind } has there
problem-correct-rules = correct rules, or add a checklist with its lamps
trouble-unknown-housing = the vehicle has no housing called { $name }
trouble-unknown-trial = nothing that may be done at this vehicle is called { $name }
trouble-unknown-outcome = { $name } is nothing that can come out of it
trouble-no-air-brakes = the vehicle has no air brakes
problem-name-vehicle-with-air = name a vehicle whose brakes work on air
# $air: shop, coupled or own, as it stands in the file.
trouble-no-such-air = this vehicle is not held on { $air } air
problem-nothing-seen = says nothing of what was seen
problem-say-seen = add a [seen.CIRCUIT] table of how housings looked while it was on, or [[air.hold]] tables
problem-lamps-and-air = stands beside what was seen of lamps
problem-write-two-cases = write two case files, one of the lamps and one of the air
trouble-unknown-gauge = there is no { $name } gauge at this hold
trouble-unknown-place = nothing of this vehicle is heard at a place called { $name }
trouble-no-lamp-of-this-id = the vehicle has no lamp of this id
trouble-no-circuit = { $connector } has no circuit for { $lamps }
# In that list: one lamp, and how many others there are.
problem-the-lamp = the { $lamp }
problem-more-lamps = { $count } more
problem-name-every-connector = name the connector as wired and any second_connector, or correct what is fitted
problem-feeds-no-lamps = is { $connector }, which feeds no lamps
problem-name-the-connector-of-the-lamps = name the connector of the lamps, this one may be its second_connector

# Sources of power and their switches.
problem-has-no-switches = has no switches
problem-switches-two-ways = says in two ways which switches it has
problem-write-one-way-of-switches = write each_circuit = true, switches_of or [[power_source.switch]] tables, one of them
problem-has-no-position = has no position
problem-add-a-position = add a [[power_source.switch.position]] table or take the switch out
problem-write-its-switches-out = write its switches out
problem-names-own-switch = names { $name }, but a switch is in one position at a time anyway
problem-lights-nothing = lights nothing and nothing needs it
problem-write-what-it-lights = write what it lights, or take it out: off needs no table
problem-power-source = power source { $source }
problem-many-switches = has { $count } switches that depend on each other and matter to this vehicle
problem-many-settings = has { $count } settings and matter to this vehicle
problem-many-settings-together = has { $count } settings that go together and matter to this vehicle
problem-leave-out-what-is-not-needed = leave out what this walk does not need, so that there are { $most } at most
trouble-unknown-power = there is no source of power called { $name }
trouble-box-at-power-unit = { $name } is for what is towed: it would feed back into the wiring of a { $kind }
problem-choose-in-an-act = give two choices or more to a step of kind act
problem-needs-a-tap = is for plain looks alone, before air is on
problem-nothing-to-choose = is nothing to choose among
problem-is-of-one-axle = reads the chambers of one axle
problem-stands-beside-per-axle = stands beside per_axle or per_end
problem-set-false = set it to false
