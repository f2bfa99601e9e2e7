# The screens around a walk's steps: its start, its menu, the cab's phone, the summary and record.

walk-cannot-be-opened = This walk cannot be opened

start-check = Check
start-scope-whole = Everything
start-scope-lamps = Lamps
# In place of the three where the app checks nothing but lamps.
start-scope-all-lamps = Lamps: all this app checks here
start-scope-brakes = Brakes
start-switched-from = Lamps are switched from
start-power-box = Box in hand
start-power-cab = The cab
start-power-helper = A helper
start-circuits = Circuits
start-looks-together = Fewest looks
start-looks-singly = One by one
start-air = Air comes from
start-air-shop = The shop's line
start-air-coupled = Tow vehicle
start-towing = Towing
start-units-towed = Units towed, all told
start-towed = { $count ->
    [0] Nothing
   *[other] { CAPITAL(start-count) }
 }
start-count = { SPELLED($count) }
# What earlier walks of this vehicle left.
start-unfinished = Unfinished, at step { $at } of { $steps }
start-open-before = { $count ->
    [one] 1 defect is still open from an earlier walk
   *[other] { $count } defects are still open from an earlier walk
 }
# What an earlier walk found and nobody has cured since: before a walk, and at its step.
last-time-at-step = { $step }: { $defect }
last-time = Last time, { $day }: { $defect }
# Asked before another walk of the same vehicle begins.
start-second = One walk of this vehicle is not finished. Start another?
start-second-yes = Start another walk
# Asked before the first walk on a phone.
start-who-asked = What is your name?
start-who-why = Every answer is signed with it. This phone remembers it.
start-look-at-it = See the record
start-who = Your name
start-name = Name or number
start-the-walk = Start the walk
start-lamps-only = Lamps only
# What the source of power cannot show.
start-hidden = { $what }.
# "About 27 min, 38 steps"; the minutes are an estimate.
start-takes = About { $minutes } min, { start-steps }
# Gauges that are known and are not asked again; $gauges says what each is like.
start-gauges = Gauges as told earlier today, zero seen: { $gauges }. This site { $altitude } above the sea.
start-ask-gauges = Ask for them again
# "31 lamps and reflectors, one round, 60 m to walk."
start-about = { ITEMS($parts) }.
start-steps = { $count ->
    [one] one step
   *[other] { $count } steps
 }
start-lamps = { $count } lamps and reflectors
start-rounds = { $count ->
    [1] one round
   *[other] { $count } trips
 }
start-to-walk = { $distance } to walk
start-holds = { $count ->
    [one] one air hold
   *[other] { $count } air holds
 }
start-measurements = { $count ->
    [one] one measurement
   *[other] { $count } measurements
 }

menu-title = More
menu-stop-for-now = Stop for now
menu-only-switches = Show only what to switch
menu-end = End this walk here
end-question = End this walk here?
end-means = { $count ->
    [one] 1 step has no answer. The record will be marked partial and say that it was not checked.
   *[other] { $count } steps have no answer. The record will be marked partial and say that they were not checked.
 }
end-leave-it-safe = Before you leave a vehicle half checked: chocks in, parking brakes set, air source shut, and everybody told that it is under air or power.
end-yes = End it here
# How a vehicle is left.
leave-question = Stop for now?
leave-applied = The brakes are held on by air: nobody goes in at the wheels. Everybody out, prop out or blue vented, then set the parking brakes.
leave-charged = Air is in the lines and may hold brakes off. Set the parking brakes: knobs out in the cab, red dumped on shop air. Chocks stay in. Tell everybody.
leave-yes = Stop, leave it so
leave-brake-defects = { $count ->
    [one] One open brake defect.
   *[other] { $count } open brake defects.
 }
# Two whole sentences, one after the other.
sentences = { $first } { $then }
leave-chocks-in = Leave the chocks in and tag the vehicle.
# Asked before another answer takes an open defect back.
withdraw-question = Take the defect back?
withdraw-means = Only if it was none. After a repair, recheck it from the open defects: the record then shows both.
withdraw-yes = It was no defect: take it back
withdraw-keep = Keep the defect
defects-title = Open defects
recheck-now = Look again now
recheck-from-its-record = The vehicle is no longer as this step needs it. Finish this walk, then recheck the defect from its record.
# What was there before, and what a recheck found.
recheck-not-cured = { $step }, still not right. Before: { SMALL($before) }. Now: { SMALL($now) }.
steps-title = Steps and answers
steps-no-answer = no answer yet
# Of an answer in a closed record: when, by whom, and whether it was tapped.
steps-given = { $time }, { $who }, { $by }

paused-title = Left for now
paused-answered = { $answered } of { $steps } steps are answered.
paused-look-again = Look at the vehicle again before you go on: chocks, air and power may not be as you left them.

# The phone in the cab.
cab-at-the-switches = At the switches. { $answered } of { $steps } answered
cab-say-again = Say it again
cab-outside = Outside now
cab-next = Next: { $later }

summary-close = Close the record
summary-headline = { CAPITAL(defects-open) }
summary-headline-early = Ended early. { CAPITAL(defects-open) }
# Of a record whose defects later walks rechecked; $left: how many of them no walk found OK since.
summary-headline-since = { $ended ->
    [early] { "Ended early. " }
   *[whole] { "" }
 }{ $count ->
    [one] 1 defect left open in this walk
   *[other] { $count } defects left open in this walk
 }; { $left ->
    [0] { $count ->
        [one] rechecked OK since
       *[other] all rechecked OK since
    }
    [one] 1 of them not rechecked OK since
   *[other] { $left } of them not rechecked OK since
 }
summary-partial-lamps = Partial: lamps only.
summary-partial-brakes = Partial: brakes only.
summary-partial-recheck = Partial: the recheck of earlier defects only.
summary-partial-whole = Partial: ended before its last step.
summary-no-result = No result.
summary-measured = Measured
summary-rechecked = { $step }: { $defect }, rechecked OK by { $who }, { $time }
# Why a step was not checked: "Lines on: no air".
summary-unchecked = { $step }: { SMALL($why) }
summary-not-reached = { $step }: not reached
summary-unreached = Not reached
# A defect that was taken back as none.
summary-withdrawn = { $step }: { $defect }, taken back by { $who }, { $time }
summary-notes = Notes
summary-outcome = { $step }: { $outcome }
# "64 steps: 60 ok, 1 defect, 3 not checked."
summary-counts = { $count ->
    [one] 1 step
   *[other] { $count } steps
 }: { ITEMS($answers) }.
summary-count-ok = { $count } ok
summary-count-defect = { $count } defect
summary-count-missing = { $count } missing
summary-count-not-fitted = { $count } not fitted
summary-count-not-checked = { $count } not checked
# Looked at again after a repair: what it may have changed.
summary-due = To look at again after the repair
summary-repaired = { $what }, { $who }, { $time }
record-plate = Plate { $mark }
record-vin = VIN { $mark }
record-odometer = Odometer { $mark }
# A field that may stay empty. $unit: mi or km.
odometer-vehicle = Odometer ({ $unit }), if wanted
odometer-hub = Hub odometer ({ $unit }), if there is one
record-begun = Begun { $began }, by { $who }
record-ended = Closed { $ended }
record-answered-by = Answered by { $names }
# Buttons that lead to the other record; $day is day and time of its beginning.
record-recheck-of = Rechecks the record of { $day }
record-rechecked-on = Rechecked on { $day }
record-recheck = Recheck the defects
# Files to hand on.
record-page = Page (PDF)
record-table = Table (CSV)
record-everything = All (JSON)
record-other-files = Other files
record-page-html = Page (HTML)
record-lines = Table (NDJSON)
# A record file, which another shop that uses walkaround can bring in.
record-for-a-shop = For another shop (ZIP)
