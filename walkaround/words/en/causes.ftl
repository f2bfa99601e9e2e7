# Likely causes of what was seen of lamps, and what to do next to tell them apart. Short, as a
# mechanic says it to another.

# Where lamps share a ground: "at the left rear".
cause-place-front-left = at the left front
cause-place-front-right = at the right front
cause-place-front-centre = at the front center
cause-place-rear-left = at the left rear
cause-place-rear-right = at the right rear
cause-place-rear-centre = at the rear center
cause-place-left-side = on the left side
cause-place-right-side = on the right side
# A ground that a vehicle's file names.
cause-place-named = at the ground called { $name }

# What may be wrong, as it stands in a list.
cause-burnt-out = bulb of the { $lamp }, { $circuit }
cause-burnt-out-led = LED of the { $lamp }, { $circuit }
cause-open-branch = wire of { $circuit } { $place }
cause-open-feed = feed of { $circuit } open
cause-poor-feed = poor contact in the feed of { $circuit }
cause-shorted = short to the frame on { $circuit }
cause-open-ground = ground lost { $place }
cause-poor-ground = poor ground { $place }
cause-open-main-ground = main ground lost
cause-corroded-plug = plug corroded all over
cause-crossed = { $one } and { $other } swapped
cause-bridged = { $one } and { $other } shorted together
# It makes turn signals flash; on a truck, or in the truck or box that feeds a trailer.
cause-flasher = flasher

# Why that would look so.
cause-why-burnt-out = { CAPITAL($lamp) }: no light from { $circuit }. Bulb burnt out, or loose in its socket.
cause-why-burnt-out-led = { CAPITAL($lamp) }: no light, or not all of it, from { $circuit }. The LED has failed, or its plug is off.
cause-why-open-branch = { CAPITAL($circuit) }: dark { $place } alone. Wire broken, or splice open, on the way there.
cause-why-open-feed = { CAPITAL($circuit) }: dark everywhere. Wire broken, or contact open, before the first splice.
cause-why-poor-feed = { CAPITAL($circuit) }: short of power everywhere. Corroded contact or splice in the feed.
cause-why-shorted = { CAPITAL($circuit) }: it trips, because its wire touches the frame. Leave it off until the short is found.
cause-why-open-ground = Ground lost { $place }: the current goes back through other lamps, which may glow.
cause-why-poor-ground = Poor ground { $place }: the more is lit there, the dimmer it gets.
cause-why-open-main-ground = Nothing lights on any circuit: the main ground is lost.
cause-why-corroded-plug = Plug corroded all over: everything is dim or dark, what draws most the worst.
cause-why-crossed = { CAPITAL($one) } and { $other } are swapped: each lights the lamps of the other.
cause-why-bridged = { CAPITAL($one) } and { $other } are shorted together: either of them lights both.
# Flashers that are heated by the lamps' current, or count it, are upset by LEDs.
cause-why-flasher = Every turn signal lights, but at the wrong rate: the flasher is bad, or not made for these lamps, as with LEDs.

# What to do next, and what is found. A circuit that has tripped is never switched on for it.
trial-look = { CAPITAL($circuit) } on, alone: look at the { $lamp }.
trial-breaker = Look at the breaker or fuse of { $circuit }.
trial-volts = { CAPITAL($circuit) } on: volts from the feed contact of the { $lamp } to bare frame. Pierce no wire.
trial-ground = { CAPITAL($circuit) } on: volts from the ground of the lamps { $place } to bare frame.
trial-clamp = { CAPITAL($circuit) } on: clamp meter round its wire, ahead of the first splice.
trial-cable = Put on a cable known to be good, and look again.
trial-wiggle-feed = Lamps on: wiggle plug and cable, or the switch's wires.
trial-wiggle-at = Lamps on: wiggle wires, splices and ground { $place }.
trial-swap = Put a bulb known to be good into the { $lamp }, and look again.
trial-swap-led = Plug an LED known to be good in for the { $lamp }, and look again.
trial-flasher = Put in a flasher known to be good, or feed the turn signals from another truck or box: look again.
trial-ohms = { CAPITAL($circuit) } off and unplugged, its lamps unplugged or their bulbs out: ohms from its wire to bare frame.

outcome-look-lit = lit
outcome-look-dim = dim
outcome-look-dark = dark
outcome-breaker-tripped = tripped or blown
outcome-breaker-in = not tripped
outcome-volts-full = about { $volts } V
outcome-volts-low = clearly less than { $volts } V
outcome-volts-none = no volts
outcome-ground-good = less than { $most } V
outcome-ground-bad = more than { $most } V
outcome-clamp-right = about { $amps } A
outcome-clamp-low = clearly less than { $amps } A
outcome-clamp-high = clearly more than { $amps } A
outcome-clamp-none = no current
outcome-cable-cured = now as it should be
outcome-cable-same = no change
outcome-wiggle-changes = it comes and goes
outcome-wiggle-same = no change
outcome-swap-cured = now it lights
outcome-swap-same = no change
outcome-flasher-cured = now they flash right
outcome-flasher-same = no change
outcome-ohms-near-zero = near zero
outcome-ohms-open = no connection

# A thing to do, and which outcome means that this is the cause.
cause-next = { $trial } { CAPITAL($outcome) } means: { $cause }.
cause-next-none = No measurement tells more. Fix this one and look again: { $cause }.

# The screen of the likely causes.
causes-title = Likely causes
causes-likeliest = Most likely
# In a record: what is likely wrong, and what was tried.
causes-of-lamps = Likely causes: lamps
causes-of-air = Likely causes: air
causes-none = No lamp is open as a defect.
causes-unexplained = No single fault explains what was found. Look again, or there is more than one.
causes-share = { $percent } % likely
# The share is of all of them together.
causes-share-alike = { $percent } % likely, this or what looks the same: { $faults }
causes-next = Next
causes-safe = Nobody underneath on released brakes. Pierce no wire, keep off ABS and data contacts, feed nothing that has tripped.
causes-nothing-next = No measurement tells more. Fix the likeliest and recheck it.
# After the last look at the lamps, while something is wrong there.
causes-more-title = One more look?
causes-more-why = It tells the likely causes apart. It may be left out.
causes-more-skip = Continue without it
causes-more-said = One more look, if you like. { $look }
# What was tried, each of which can be taken back.
causes-tried = Done so far
causes-take-back = Take back
# What may make the eyes err.
causes-erring = Hard to see?
causes-sun = Sun
causes-rain = Rain
causes-dirty-lenses = Dirty lenses
