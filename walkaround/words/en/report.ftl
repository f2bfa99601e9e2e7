# The page of a walk that is handed over, on paper or as a file.

# What it is; said again at the foot of every sheet.
report-about = Lamps and air brakes: what was checked, found and not checked. Not a periodic inspection (49 CFR 396.17).
# Across the whole page.
report-stamp-partial = PARTIAL
report-stamp-ended-early = ENDED EARLY
report-stamp-both = PARTIAL, ENDED EARLY
report-stamp-going = NOT FINISHED
report-ended-early = Ended early, before its last step.
report-going = Not finished: what follows is how far it was when this page was made.
report-foot = { $vehicle }, walk { $walk }. Not a periodic inspection (49 CFR 396.17).
# Both are numbers, filled in where the page is made.
report-page = page { "{page}" } of { "{pages}" }
# A day and time with the distance of its zone from UTC, as in "+01:00", "+00:00".
report-time = { $time } UTC{ $zone ->
    [zero] { "" }
   *[other] { $offset }
 }

report-vehicle = Vehicle
report-plate = Plate
report-vin = VIN
report-odometer = Odometer
report-not-given = not given
report-kind = Kind
report-begun = Begun
report-last-answer = Last answer
report-closed = Closed
report-who = By
report-where = Where
report-scope = Checked
report-scope-whole = lamps and air brakes
report-scope-lamps = lamps only
report-scope-brakes = brakes only
report-scope-recheck = earlier defects only
report-recheck-of = Recheck of walk
report-walk = Walk

report-wrong = What is wrong
report-wrong-none = Nothing was found wrong in what was checked.
report-no = No.
report-what = What was found
report-done = Done, noted
report-state = State
report-open = OPEN
# Of a defect that a later walk found OK.
report-open-cured = OPEN in this walk, OK since
report-found-by = Found by { $who }, { $time }.
report-rechecked = Rechecked OK by { $who }, { $time }.
# What a later walk says of a defect that was left open. $walk: its id.
report-later-cured = Rechecked OK since by { $who }, { $time }, in walk { $walk }.
report-later-open = Still open: seen by { $who }, { $time }, in walk { $walk }.
report-later-again = Found wrong again by { $who }, { $time }, in walk { $walk }.
report-found = { $step }: { $what }
report-note = Note: { $note }
report-withdrawn = Taken back as no defect by { $who }, { $time }.
report-repair-to-write = Repair:
report-repair-done = { $what }: { $who }, { $time }.
report-plan = { $count ->
    [one] The vehicle from above with 1 finding marked: { $findings }
   *[other] The vehicle from above with { $count } findings marked: { $findings }
 }
report-plan-key = The numbers are those below; filled: open, empty: rechecked OK.
report-not-on-plan = Not marked on the plan: No. { $numbers }.

report-unchecked = What was not checked, and why
report-unchecked-none = Every step of this walk was answered.
report-outside = Not part of this walk
report-outside-lamps = the air brakes
report-outside-brakes = lamps and reflectors
report-outside-recheck = everything but the earlier defects named here
report-unchecked-row = { $why }: { $count ->
    [one] 1 step
   *[other] { $count } steps
 }
report-not-reached = Not reached
report-not-fitted = Not fitted, not asked for by a rule
report-hidden = Cannot be shown from this source of power
report-not-covered = Not covered

report-checked = What was checked, and no fault named
report-group-ready = Made ready
report-group-lamps = Lamps and reflectors
report-group-air = Air holds
report-group-wheels = At the wheels
report-group-supply = Air supply
report-group-leaving = How it was left
report-checked-step = { $step } ({ $what })
# The lamps of one side of the vehicle: "rear: both tails, three ID lamps"
report-checked-at = { $where }: { $what }

report-holds = Air holds
# Above a chart: which hold, which gauge.
report-chart = { $step }: { $chart }
report-readings = Readings: { $readings }.
report-chart-fitted = fitted, bounds gray
report-strokes = Pushrod strokes, by wheel end
report-strokes-told = The vehicle from above with the stroke at each wheel end: { $strokes }
report-stroke-told = { $step }: { $stroke }
report-strokes-key = At each wheel end the stroke and its limit; filled: outside it.
report-stroke-unmeasured = no stroke
report-chambers = { $step }: { $chambers }
report-measured = Other values
report-sources = Rules and limits, and where they are from
report-source-in-doubt = { $source }. In doubt: { $doubt }
# Which of the numbered findings a rule is about.
report-rule-of = No. { $numbers }
report-notes = Notes
report-vehicle-note = About the vehicle
report-known-damage = Known damage
report-about-walk = About this walk
report-gauges = Gauges: { $gauges }.
report-counts = { $count ->
    [one] 1 step
   *[other] { $count } steps
 }: { ITEMS($answers) }.

report-by-hand = Signed, or to fill in by hand
# A driver's report may have listed one of these defects: the carrier certifies on it what became of it.
report-drivers-report = If a driver's report listed a defect, certified on that report (circle one): repaired / repair unnecessary (49 CFR 396.11(a)(3)(ii))
report-blank-by = By
report-blank-name = Name
report-blank-signature = Signature
report-blank-date = Date
report-blank-what = What
report-keep = Where 49 CFR 396.3(c) applies, this record is kept where the vehicle is housed or maintained for 1 year, and for 6 months after the vehicle has left the carrier's control.
# Of a lamp at a step where something else was found wrong.
report-no-fault-named = no fault named

report-photos = Photos
# Below a photo: the numbers of what is wrong at its step, as they stand in the table of findings.
report-photo-of = { $numbers }: { $step }
report-photos-lost = { $count ->
    [one] A photo of this walk is missing.
   *[other] { $count } photos of this walk are missing.
 }
# How many answers were given in which way.
report-answered = Answers: { $ways }.
report-by-tap = { $count } tapped
report-by-key = { $count } by key
report-by-voice = { $count } by voice

# The likely causes of what is open, when this page was made.
report-likely-lamps = Lamps
report-likely-air = Air
report-likely-cause = { $cause }: { $percent } %
# The share is of all of them together.
report-likely-cause-alike = { $cause }, or what looks the same ({ $alike }): { $percent } %
# A thing that was done to find out, and what came out of it.
report-tried = Done: { $what } { CAPITAL($found) }.
