# The screen of one step, and what opens over it.

step-of-steps = { $at } of { $steps }
# The same for those who hear the screen.
step-of-steps-said = step { $at } of { $steps }
step-answered = answered
step-more = More
step-note = Note: { $note }
# An item with the number that it has on the plan, and how it should look where items differ.
step-item = { $number }  { $item }
# One of several things that are looked at in one place.
step-row = • { $row }
step-item-look = { $number }  { $item }: { $look }
# Where nothing may move on the screen: how flashing lamps are drawn.
step-arcs-flash = Lamps with an arc on both sides flash.
look-steady = steady
look-flashing = flashing
look-dark = dark
# A step looked back at.
step-not-answered = Not answered yet.
step-looking-back = Looking back: { $step }
step-looking-back-said = Looking back: { $step }.
step-given = Answered: { $answer }, { $time }.
step-given-why = Answered: { $answer }, { $why }, { $time }.
step-given-changes = { $given } Another answer changes it.
# Above the words of a step that is looked back at.
step-was-asked = What was asked

# Answers, and what else can be tapped; short, they stand on buttons.
step-as-shown = All good
step-listen = Listen
step-again = Again
step-explain = Explain
step-shorter = Shorter
step-note-button = Note
step-go-on = Return
# Stands in place of the answers while words that must be read first are out of sight; it scrolls.
step-read-on = Read on
step-other = Other

fault-record-here = Record a defect here?
fault-stays-open = It stays open until this step is repeated and is OK.
fault-note-first = Write a note first
fault-which = Which one is wrong?
fault-item = { $item }: { $seen }
# Going back with marks that are not recorded.
fault-drop-question = { $count ->
    [one] Drop what you marked?
   *[other] Drop the { $count } marks?
 }
fault-drop = { $count ->
    [one] Drop it
   *[other] Drop them
 }
fault-keep = { $count ->
    [one] Keep it
   *[other] Keep them
 }
fault-what = What do you see?
fault-record = { $count ->
    [one] Record it
   *[other] Record these { $count }
 }
other-because = Not checked, because
other-not-on-vehicle = Not on this vehicle
other-required = These lamps are required, so they cannot be 'not fitted'. One that is not there is missing: tap Defect.
note-title = Note
note-save = Save the note
note-cut = The note was too long: its first { $most } characters are kept. What looks like one character, such as an emoji, may count as several.
answered-elsewhere = That step was answered meanwhile. If you saw something else, go back to it and answer it again.

# Values that are measured.
measure-within = Within the limits
# $limit is one of `bound-short`.
measure-within-limit = Within limit: { $value } ({ $limit })
measure-outside = { $bounds ->
    [high] Over the limit
    [low] Below the limit
   *[both] Outside the limits
 }
measure-also = Also published: { $also }.
measure-again = Measure again
measure-too-late = The vehicle is no longer as this step needs it: measure again in a walk of its own.
measure-value = { CAPITAL($name) }: { $judged }
keypad-in = { CAPITAL($name) }, { $unit ->
    [in] inches
    [s] seconds
   *[other] { $unit }
 }
# The whole inches are in, the fraction is asked for.
keypad-whole = { CAPITAL($name) }: { $whole } …
keypad-other-keys = Other keys

# A time that runs.
time-start = Start
time-stop = Stop
# Stands where the seconds would: nobody knows how many.
time-lost = lost
time-seconds = { $seconds } s
wait-restarted = The computer was restarted: the time it was off does not count.
wait-not-now = Skip: not checked
wait-left = minutes left
# What those hear who do not see the clock.
wait-left-said = { $minutes ->
    [0] { $seconds } seconds left
    [one] 1 minute { $seconds } seconds left
   *[other] { $minutes } minutes { $seconds } seconds left
 }
wait-up = the time is up
wait-strip-up = { $name }: the time is up
wait-strip-minutes = { $name }: { $minutes } min left
wait-strip-seconds = { $name }: { $seconds } s left

# The chambers of an axle: both ends as they are known, and the answer that they are so and that the
# rods are marked.
chambers-marked = Both OK
chambers-in-doubt = One end was not read whole. Read both, record the defect, or answer Other: not checked.
chambers-unlike = The ends do not match; on one axle they must (49 CFR 393.47(b)). Read both once more, or record the defect.
chambers-which-size = { CAPITAL($side) }: the size on the chamber
chambers-unread = Can't read it
chambers-other-kind = Other kind
chambers-long = { CAPITAL($side) }, type { $type }: long stroke?
chambers-long-tell = Long stroke: square ports, a trapezoid tag, or stamped so.
chambers-yes = Yes
chambers-no = No
chambers-cannot-tell = Can't tell
chambers-rated = { CAPITAL($side) }, type { $type }: stroke marked on it
chambers-none-marked = None of these
chambers-read-again = Read them again

# What the gauges of a walk are like.
gauge-by-crossings = { $gauge }, by crossings
gauge-plain = { $gauge } gauge
gauge-dial-in = { CAPITAL($gauge) } gauge: its dial is in
gauge-finest = The finest step you can read on it
gauge-tap-crossing = Tap as the needle crosses a mark
gauge-read-nearest = Read the nearest mark
gauge-site = This site: { $altitude } above the sea
gauge-move-m = { $by } m
gauge-move-ft = { $by } ft
gauge-zero-seen = Zero seen at { $altitude }, last time.
gauge-zero-asked = Lines vented: do the needles stand at zero?
gauge-as-last-time = As last time
gauge-at-zero = Gauges at zero
gauge-not-at-zero = Not at zero

# On the panel of a note; the phone asks whether to take one with its camera.
photo-take = Photo
photo-coming = The photo is on its way.
photo-did-not-come = { $name } did not come, or is larger than 40 MB; take another one.
photo-left = { $count ->
    [0] This walk has all the photos it can hold.
    [one] 1 more photo can be taken in this walk.
   *[other] { $count } more photos can be taken in this walk.
 }
# Spoken by screen readers.
photo-of-step = Photo { $number }
# One large word at a step where air blows out so loud that speech is not understood.
step-vents = Air out
step-show-large = Show me large
