# Lamps, circuits and contacts, and the steps at them.

# Clauses that may hold commas themselves: orders at switches, doubts about contacts.
clauses = { $first }; { $then }

side-left = left
side-right = right
side-centre = centre

# A lamp by the side of the vehicle that it is on: "left tail lamp".
lamp-on-side = { $side } { $lamp }
# Lamps that repeat along a side, counted from the front.
lamp-in-row = { $number ->
    [1] first { $lamp }
    [2] second { $lamp }
    [3] third { $lamp }
    [4] fourth { $lamp }
    [5] fifth { $lamp }
    [6] sixth { $lamp }
    [7] seventh { $lamp }
    [8] eighth { $lamp }
    [9] ninth { $lamp }
    [10] tenth { $lamp }
    [11] eleventh { $lamp }
    [12] twelfth { $lamp }
    [13] thirteenth { $lamp }
    [14] fourteenth { $lamp }
    [15] fifteenth { $lamp }
    [16] sixteenth { $lamp }
    [17] seventeenth { $lamp }
    [18] eighteenth { $lamp }
    [19] nineteenth { $lamp }
   *[20] twentieth { $lamp }
 }
# Several lamps in one housing: "left tail lamp and left stop lamp".
lamp-names = { $names }
# A turn signal that flashes in the same housing as a lamp that burns steady.
lamp-over-steady = { $flashing } over steady { $steady }
lamp-any-other = any other lamp here

# Contacts of a connector: "pin 7", "pins A and C".
lamp-pins = { $count ->
    [one] pin { $pins }
   *[other] pins { $pins }
 }
# Why contacts are doubtful: "pins A and C: the standard gives them two meanings".
lamp-doubt = { $pins }: { $doubt }

# Circuits, as they stand in a sentence.
circuit-marker = marker
circuit-tail = tail
circuit-tail-left = left tail
circuit-tail-right = right tail
circuit-left-turn = left turn
circuit-left-stop-turn = left stop and turn
circuit-right-turn = right turn
circuit-right-stop-turn = right stop and turn
circuit-stop = stop
circuit-left-stop = left stop
circuit-right-stop = right stop
circuit-backup = backup
circuit-blackout-marker = blackout marker
circuit-blackout-stop = blackout stop
circuit-abs = ABS
circuit-headlamp = headlamp
circuit-parking = parking
circuit-blackout-drive = blackout drive
circuit-blackout-switch = blackout switch
circuit-fog = fog
circuit-aux = auxiliary
circuit-permanent = permanent feed
circuit-ignition = ignition feed
circuit-brake = brake control
# One of several contacts with the same function that are not joined.
circuit-at-pin = { $circuit }, pin { $pin }
circuit-second-connector = { $circuit }, second connector
# What feeds a circuit that reaches its lamps through no connector.
circuit-own = the power unit's own circuit
circuit-abs-by-itself = ABS fed through a connector of its own

# Where to stand, at the end of a title.
lamp-spot-front = front
lamp-spot-right-side = right side
lamp-spot-rear = rear
lamp-spot-left-side = left side

# Titles: what is switched on, and where to stand.
lamp-step = { CAPITAL($what) }, { $spot }
lamp-step-reflectors = Reflectors, { $spot }
lamp-step-abs-by-stop = ABS lamp from the stop circuit, { $spot }
lamp-circuit = { $circuit } circuit
lamp-all-at-once = all at once

# How circuits are switched on.
lamp-call-out = Call out: { $setting }
lamp-circuit-on-called = Call out: { $circuit } on.
lamp-circuit-on-cab = From the cab: { $circuit } on.
lamp-circuit-on-spot = Switch on { $circuit }.
lamp-pins-on = { CAPITAL($pins) } on, { $circuit }.
lamp-only-pins-on = Only { $pins } on, { $circuit }.

# Why so many rounds.
lamp-one-round-spot = One round, circuits switched at each spot.
lamp-one-round-called = One round, circuits called out at each spot.
lamp-one-circuit-one-round = One circuit, one round.

# What a source of power cannot show.
lamp-not-told-apart = { $one } and { $other } cannot be told apart: { $reason }
lamp-not-seen-steady = { $circuit } cannot be seen steady
lamp-not-seen-flashing = { $circuit } cannot be seen flashing
