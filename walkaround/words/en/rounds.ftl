# Settings of the switches that light a vehicle's lamps, and rounds of the vehicle.

# What is set: "parking lamps, left turn".
rounds-setting = { ITEMS($positions) }
# How it is set: orders, and that every other switch is off.
rounds-orders = { CAPITAL($orders) }.
rounds-all-else-off = rest off
# An order, and how the switch is kept so with nobody in the cab.
rounds-order-kept = { $order } ({ $keep })

# The switches of a box, one for each circuit.
rounds-on = { $circuit } on
rounds-flashing = { $circuit } flashing

# Why so many rounds.
rounds-none = No rounds: { $source } lights no circuit of this vehicle.
rounds-settings-spot = { $count ->
    [one] One round, { SPELLED($count) } setting switched at each spot.
   *[other] One round, { SPELLED($count) } settings switched at each spot.
 }
rounds-settings-called = { $count ->
    [one] One round, { SPELLED($count) } setting called out at each spot.
   *[other] One round, { SPELLED($count) } settings called out at each spot.
 }
# $order is what is set in each round, joined by the next message.
rounds-from-cab = { $count ->
    [one] { CAPITAL(SPELLED($count)) } round: { $order }.
   *[other] { CAPITAL(SPELLED($count)) } rounds: { $order }.
 }
rounds-then = { $first }; then { $then }
# Switches that do not stay as they are set by themselves.
rounds-from-cab-held = { $count ->
    [one] { CAPITAL(SPELLED($count)) } round: { $order }; { $switches } must be held or propped.
   *[other] { CAPITAL(SPELLED($count)) } rounds: { $order }; { $switches } must be held or propped.
 }
rounds-the-switch = the { $switch }

# Why two circuits cannot be told apart.
rounds-never-apart = { $source } never lights { $one } without { $other }
