# The command line: its help, and what its commands print for people.

# --lan and the like, names of columns and of units stand as they are.
help-app = The command line: `walkaround` starts the app, the other commands print text or JSON.
help-commands = commands
help-verbose = say what happens, on stderr
help-data = folder of walks and settings
# $languages: "en, es"
help-language = language of what is shown, said and printed: { ITEMS($languages) } (default en)
help-json = print one JSON document
help-host = address to serve on (default 127.0.0.1)
help-port = port to serve on (default 8765)
help-lan = serve the local network too; devices must be paired
help-new-key = with --lan: every device must be paired anew
help-https = serve over https, with a certificate made here
help-certificate = with --https: a certificate of your own
help-private-key = the key of that certificate
help-no-browser = do not open a browser
help-steps = class, lamps, rounds and steps of a vehicle
help-wording = how the steps are told (default short)
help-wiring = pins, circuits, grounds and bulbs of a vehicle
help-causes = likely causes of what was seen of lamps, or of lost air
help-causes-case = what was seen or lost of which vehicle, as DEVELOPERS.md has it
help-hold = leak rate, bounds and verdict of an air hold's log
help-hold-log = table with the column seconds and one of psi, kPa or bar
help-hold-limit = most that may be lost, psi/min
help-hold-gauge-step = the gauge was read to the nearest so many, in the log's unit (default 1 psi, 5 kPa or 0.05 bar)
help-hold-read-sd = standard deviation of the eye's error, psi (default 0.25)
help-check = every problem in checklist, vehicle, connector or power-source files; without one, in all there are
# How many facts of the tables are of which kind.
cli-provenance = Facts: { $read } read at their source, { $memory } from memory, { $common_practice } common practice, { $none } without.
help-walks = the walks recorded so far, newest first
# $kinds: ".csv, .ndjson"
help-walks-output = write them as a table to this file, oldest first, one row a walk; by its ending: { $kinds }
help-facts = with -o: one row for each fact of each walk
help-report = one walk as a file to hand over
help-report-output = the file to write; by its ending: { $kinds }
help-share = walks as one file that other shops bring into their records
help-share-walk = id of a walk; without one, all walks
help-share-output = the file to write, a zip archive
help-share-shop = what this shop calls itself in what it signs, from now on
help-merge = bring the walks of record files into the records here
help-verify = whether a record file was changed since it was shared, and who signed it
help-verify-keep = keep the key that signed this file as that of this shop, once compared with them
cli-shared = { $count ->
    [one] 1 walk
   *[other] { $count } walks
 } shared. Signed by { $shop }, key { $key }.
cli-left-out = Walk { $walk } is left out: { $why }
cli-verified = Not a byte was changed: { $walks ->
    [one] 1 walk
   *[other] { $walks } walks
 }, { $photos ->
    [one] 1 photo
   *[other] { $photos } photos
 }.
problem-key-not-kept = the file has no signature that holds
problem-keep-of-a-sound-file = keep a key only of a file that was not changed
problem-file-ending = { $name } has no ending that says what to write
problem-give-an-ending = let it end in { EITHER($kinds) }

cli-complaint = walkaround: { $sentence }
# Where the app is served; what starts walkaround may read the address off this line.
cli-served-at = walkaround is at { $address }
cli-fingerprint = The certificate's SHA-256 fingerprint: { $fingerprint }
cli-no-data-folder = { $folder } is no folder; name the data folder of the app with --data.
problem-no-address = { $host } is no address
problem-give-an-address = give one such as 127.0.0.1
problem-opens-every-record = { $host } would open every record to the whole network
problem-say-lan-too = say --lan too, so that a device must be paired first, or use 127.0.0.1
problem-flag-needs = it needs { $other }
problem-give-flag-too = give { $other } too

cli-plan = { $vehicle }: class { $class_ }, { $lamps } lamps, { $reflectors } reflectors, { $rounds } round(s)
cli-lamps = Lamps
# $colours are those allowed, of which one is enough.
cli-lamp = { $name }, { EITHER($colours) }, circuit { $circuit } ({ $source }, { $provenance })
colour-white = white
colour-amber = amber
colour-red = red
colour-yellow = yellow
# Lamps that show one color forward and another to the rear.
colour-amber-and-red = amber and red
# How far a fact can be relied on.
provenance-read = read
provenance-memory = memory
provenance-common-practice = common practice, no source
cli-source-in-doubt = In doubt: { $doubt }
cli-steps = Steps
cli-step = { $title }: { $say }

cli-wiring = { $vehicle }: { $volts } V, { $title } ({ $connector })
# What the contacts of the connector may carry.
cli-rating = Rated { $rating }
cli-pins = Pins
cli-pins-of-rear-socket = Pins of the rear socket
cli-pin-in-doubt = { $pin }? in doubt: { $doubt }
cli-circuits = Circuits
cli-bulbs = Bulbs and LEDs
# Heads of columns.
cli-head-pin = pin
cli-head-colour = color
cli-head-does = does
cli-head-circuit = circuit
cli-head-lamps = lamps
cli-head-housing = housing
cli-head-ground = ground
cli-head-watts = watts
cli-head-bulb = bulb
cli-watts = { $watts } at { $volts } V
cli-led = LED
cli-usual-bulb = * not named in the vehicle's file: what such a lamp usually has

# $why is the reading that does not fit, or empty.
cli-hold-within = Within the limit.
cli-hold-over = Over the limit. { CAPITAL($why) }
# $why is one of `hold-why` in air_hold.ftl, with its full stop.
cli-hold-undecided = Undecided: { $why } { $seconds ->
    [none] { $reason ->
        [misread] Put it right, or hold again.
       *[other] Five minutes did not decide it: the plain rule result stands.
     }
   *[other] Hold { $seconds } s more.
 }
cli-hold-settling = { $reason ->
    [rising] Settling: the gauge rises; shut the source valve, let it settle, charge up and start again.
   *[cooling] Settling: it cooled, as air just charged does; let it settle, charge up and start again.
 }
cli-hold-rate = Rate { $rate }: { $span }. Limit { $limit }, { $readings } readings in { $held } s.

cli-no-problems = No problems.
cli-walk = { $id }  { $name }  { $answered }/{ $steps } answered, { $defects } open defect(s), { $phase }{ $ended ->
    [partial] , partial
   *[whole] { "" }
 }
cli-walk-in-trouble = { $walk }: { $trouble }
cli-phase-unstarted = unstarted
cli-phase-stepping = stepping
cli-phase-holding = holding
cli-phase-paused = paused
cli-phase-finished = finished
cli-no-walk = No walk is recorded here yet.
cli-no-walk-listed = No walk can be listed.

# Likely causes, each in three lines.
cli-nothing-odd = Everything seen is as it should be. These faults would not have shown:
cli-cause = { $share } %  { $why }
cli-same-look = As far as was seen, these look just the same: { $faults }.
cli-more-causes = { $count } more
cli-next-thing = Next: { $say } Found: { $outcomes }.
help-publish = put the walks recorded here into a fleet's database
help-fleet-address = of the database: postgresql://USER@HOST/DATABASE
help-pull = bring the walks of one vehicle from a fleet's database into the records here
help-pull-vehicle = the vehicle's id, plate or VIN
help-pull-from = address of the database (the one last published to if not said)
cli-published = { $walks ->
    [one] 1 walk
   *[other] { $walks } walks
 } published with { $facts ->
    [one] 1 fact
   *[other] { $facts } facts
 }; { $same } there already.
