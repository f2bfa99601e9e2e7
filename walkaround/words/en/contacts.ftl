# A lamp cable checked from end to end, and the rear socket of a tow vehicle.
contacts-title = Cables and sockets
contacts-about = Before a trailer is blamed: is it the cable, or what comes out of the tow vehicle?
contacts-cable = Check a cable
contacts-socket = Check a tow vehicle's socket
contacts-before = Checked before
contacts-none-before = Nothing checked yet.
contacts-good = Nothing wrong found
# Who and when: "Ana, 2026-11-26 10:42".
contacts-checked = { $who }, { $time }
contacts-record = Record it

cable-open = Contact { ITEMS($contacts) } reaches nothing.
cable-weak = Contact { ITEMS($contacts) }: poor contact.
cable-swapped = Contacts { $contacts } are swapped.
cable-crossed = Crossed, from one end to the other: contacts { $contacts }.
cable-shorted = Contacts { $contacts } are shorted together.
# Another contact was told to reach these, of which nothing was told.
cable-tell-too = Tap { $contacts } too: what does it reach?
cable-name = Name of the cable
cable-needs-name = Name the cable, so that the next one finds this check.
cable-which-plug = Plugs at both ends
cable-caution = Both ends unplugged. Nothing of it touches a vehicle.
cable-how = Ohmmeter from each contact of one end to the same contact of the other, and to all others. Bend the cable at the plugs meanwhile. About 0 ohm to its own, nothing to any other?
cable-straight = All straight through
cable-tap-wrong = Tap each contact that is not as it should be.
cable-record = { $count ->
    [one] Record 1 contact
   *[other] Record { $count } contacts
 }
# What one contact reaches, on its button, of few letters: "3 to 5".
cable-contact-to = { $contact } to { ITEMS($far) }
cable-contact-open = { $contact } open
cable-contact-weak = { $contact } weak
cable-reaches = Contact { $contact } reaches
cable-only-its-own = Its own, { $contact }, alone
cable-nothing = Nothing
cable-weakly = Its own, but poorly
# Contacts that it reaches, several may be chosen.
cable-these = Or these:
cable-advice = Do not use it. Mend or change it before a trailer is blamed.

socket-title = Socket of { $name }
socket-caution = Chocks in, parking brake set, nothing coupled. Key on, engine off. Neutral.
socket-how = Test lamp with a bulb of a stop lamp's size, from the contact to the ground contact. A helper switches, or you go back and forth.
# $what is a contact's number, $use what the standard says of it.
socket-left-alone = { $contact }, { $use }
socket-not-probed = Never probed here: { ITEMS($contacts) }.
socket-everything-off = Everything off
socket-switch-lamps = Lamps
socket-switch-left-turn = Left turn
socket-switch-right-turn = Right turn
socket-switch-stop = Stop
socket-switch-backup = Reverse
socket-switch-blackout = Blackout
socket-switch-blackout-stop = Blackout stop
# The whole line: "Stop: contact 4, and no other".
socket-expected = { $count ->
    [0] { $switch }: no contact live
    [one] { $switch }: contact { ITEMS($contacts) } alone
   *[other] { $switch }: contacts { ITEMS($contacts) }, no other
 }
socket-tap-live = Tap each contact once if bright, twice if dim.
socket-contact-bright = { $contact } bright
socket-contact-dim = { $contact } dim
socket-contact-dark = { $contact } dark
socket-red = Red: gauge on the gladhand. Supply knob in: air. Out: none?
socket-blue = Blue: gauge on the gladhand. Supply knob in, pedal down: air. Pedal up: none?
socket-air-caution = Goggles on, face away from the gladhands. Nobody at the brakes.
socket-red-wrong = Air at red is not as it should be.
socket-blue-wrong = Air at blue is not as it should be.
socket-fault-missing = { ITEMS($switches) }: nothing at { ITEMS($contacts) }.
socket-fault-low = { ITEMS($switches) }: dim at { ITEMS($contacts) }, too little under load.
socket-fault-swapped = { ITEMS($switches) } are swapped.
socket-fault-joined = { ITEMS($switches) }: either feeds both, they hang together.
socket-fault-back-fed = { ITEMS($switches) }: also live at { ITEMS($contacts) }, which has another switch.
socket-fault-always-on = Live with everything off: { ITEMS($contacts) }.
socket-advice = Mend the tow vehicle first, then check the trailer.
socket-left = { $count ->
    [one] 1 switch to go
   *[other] { $count } switches to go
 }
