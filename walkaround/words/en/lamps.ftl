# Lamps, circuits and contacts, and the steps at them.

# Clauses that may hold commas themselves: orders at switches, doubts about contacts.
clauses = { $first }; { $then }

side-left = left
side-right = right
side-centre = center

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
# A turn signal that flashes in the same housing as a lamp that stays on.
lamp-over-steady = { $flashing }, over { $steady }
lamp-any-other = any other lamp here
lamp-anything-else = anything else here

# What lamps are called as they are said, without a side; made of the short names that checklists
# give: "tail", "plate lamp". Several lamps in one housing: "tail and stop lamp".
lamp-said-together = { $names } lamp
# Lamps that flash in one housing: "stop/turn".
lamp-said-signal = { $one }/{ $other }
# A signal that flashes over a lamp that stays on.
lamp-said-over = { $flashing } over { $steady }

# Contacts of a connector: "pin 7", "pins A and C".
lamp-pins = { $count ->
    [one] pin { $pins }
   *[other] pins { $pins }
 }
# Why contacts are doubtful: "pins A and C: the standard gives them two meanings".
lamp-doubt = { $pins }: { $doubt }

# Circuits, as they stand in a sentence: "stop lamps on", "left turn flashing".
circuit-marker = clearance and markers
circuit-tail = tail lamps
circuit-tail-left = left tail lamps
circuit-tail-right = right tail lamps
circuit-left-turn = left turn
circuit-left-stop-turn = left stop/turn
circuit-right-turn = right turn
circuit-right-stop-turn = right stop/turn
circuit-stop = stop lamps
circuit-left-stop = left stop lamp
circuit-right-stop = right stop lamp
circuit-backup = backup
circuit-blackout-marker = blackout markers
circuit-blackout-stop = blackout stop
circuit-abs = ABS power
circuit-headlamp = low beams
circuit-parking = parking lamps
circuit-blackout-drive = blackout drive lamp
circuit-blackout-switch = blackout switch
circuit-fog = fog lamp
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
lamp-spot-mirror = in the mirror

# Titles: what is switched on, and where to stand.
lamp-step = { CAPITAL($what) }, { $spot }
lamp-step-reflectors = Reflectors, { $spot }
lamp-step-abs = ABS lamp, { $spot }
lamp-step-abs-by-stop = ABS lamp from the stop circuit, { $spot }
lamp-step-out-of-reverse = Out of reverse
lamp-step-all-off = Pedal up, all off
lamp-all-at-once = all at once

# How circuits are switched on.
lamp-call-out = Call out: { $setting }
lamp-circuit-on-called = Call out: { $circuit } on.
lamp-circuit-on-cab = From the cab: { $circuit } on.
lamp-circuit-on-spot = { CAPITAL($circuit) } on.
# The ABS lamp, from its own supply and from the stop circuit alone.
lamp-abs-on-spot = { CAPITAL($circuit) } on; rest off.
lamp-abs-on-called = Call out: pedal up, switches off, key off, then on.
lamp-abs-on-cab = Key off, then on.
lamp-abs-by-stop-on-spot = Only { $circuit } on.
lamp-abs-by-stop-on-called = Call out: key off, brake pedal down just far enough to light the stop lamps.
lamp-abs-by-stop-on-cab = Key off, brake pedal down just far enough to light the stop lamps.
# After reverse, before anything else.
lamp-out-of-reverse-cab = In the cab: neutral, reverse off, parking brake set.
lamp-out-of-reverse-called = Call out: neutral, reverse off, parking brake set.
lamp-out-of-reverse-long = { $order } A gear that stays in moves the vehicle as soon as somebody starts the engine, over whoever stands behind it.
# After the last look in which a pedal was down.
lamp-all-off-cab = In the cab: pedal prop out, switches off, key out.
lamp-all-off-called = Call out: pedal up, switches off, key out.
lamp-all-off-long = { $order } A pedal that stays down applies the brakes as soon as there is air, with somebody at the wheels.

# Why so many rounds.
lamp-one-round-spot = One round, circuits switched at each spot.
lamp-one-round-called = One round, circuits called out at each spot.
lamp-one-circuit-one-round = One circuit, one round.

# What a source of power cannot show.
lamp-not-told-apart = { $one } cannot be told from { $other }: { $reason }
lamp-not-seen-steady = { $circuit } cannot be seen steady
lamp-not-seen-flashing = { $circuit } cannot be seen flashing

# The rear socket of a vehicle that tows.
socket-contact = { $pins }, { $circuit }
socket-passes-on = Rear socket passes on what it gets
socket-passes-on-in-turn = Rear socket, test light. Feed each circuit in front in turn: it comes out here, and no other.
socket-passes-on-in-turn-long = Rear socket, test light. Feed each circuit in front in turn: it comes out here, and no other. Hold the test light between ground and each contact. What the dolly does not pass on, the trailer behind it has not got: no lamps, no ABS. A contact that is live on another circuit is a crossed or bridged wire.
socket-passes-on-in-turn-brisk = Rear socket: each circuit comes out, no other.
socket-passes-on-at-once = Rear socket, test light. Switched as at the last look, each lamp circuit is live.
socket-passes-on-at-once-long = Rear socket, test light. Switched as at the last look, each lamp circuit is live. Hold the test light between ground and each contact. What the dolly does not pass on, the trailer behind it has not got.
socket-passes-on-at-once-brisk = Rear socket: all lamp circuits live.
socket-abs-feed = { CAPITAL($pins) } live with the key on
socket-abs-feed-short = Rear socket, key on: { $pins } is live.
socket-abs-feed-long = Rear socket, key on: { $pins } is live. Measure from it to the ground contact: battery voltage. It feeds the trailer's ABS; without it the trailer brakes without ABS, and its lamp stays dark.
socket-abs-feed-brisk = Rear socket: { $pins } live.
