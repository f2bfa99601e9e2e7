# The screens of vehicles: their list, one of them, its form, and a file taken in.

go-back = Back
close-sheet = Close
# A choice that is made, for screen readers.
chip-chosen = { $name }, chosen

defects-open = { $count ->
    [0] no open defect
    [one] 1 open defect
   *[other] { $count } open defects
 }
walk-closed-with = closed, { defects-open }
walk-going-with = { $answered } of { $steps } answered, { defects-open }

vehicles-title = Vehicles
vehicle-new = New vehicle
vehicle-most-like-it = Which one is most like it?
vehicle-can-be-changed = Everything can be changed afterwards.
vehicle-copy-of = Copy of { $name }
vehicle-edit-named = Edit { $name }
vehicle-lamps-and-wiring = Lamps and wiring
vehicle-walks = Walks
vehicle-no-walk = No walk of it yet.
vehicle-earlier-walks = { $count } earlier
vehicle-copy = Copy
vehicle-export = Export
vehicle-edit = Edit
vehicle-delete = Delete
vehicle-is-shipped = It came with the app: copy it, and change the copy.
vehicle-delete-question = Delete { $name }?
vehicle-delete-means = { $walks ->
    [0] { $name } will no longer be offered.
    [one] { $name } will no longer be offered. Its walk stays in the records.
   *[other] { $name } will no longer be offered. Its { $walks } walks stay in the records.
 }
vehicle-file-is-kept = Its file is kept, in the folder of removed vehicles.
vehicle-keep-it = Keep it
vehicle-delete-it = Delete it

form-done = Done
form-save = Save
form-not-saved = What you changed has not been saved.
form-leave-title = Leave?
form-stay = Stay here
form-leave = Leave without saving
form-put-right = To be saved, put right: { ITEMS($fields) }.
form-put-right-above = To be saved, put right: see above.
form-add-another = Add another
form-tap-to-add = None known: tap to add
form-connector = { $volts } V, { $standard }
# What a choice or a tick is called by screen readers: its field and itself.
form-choice = { $field }: { $choice }
form-tick = { $field } { $axle }
form-all = All
form-all-axles = All axles
form-axle = Axle { $number }
form-on-axle = On axle
form-tap-to-take-away = Tap one to take it away.
form-take-away = Take away: { $what }
form-take-away-volume = Take away one of { $volume }
form-add-volume = Add one of { $volume }
form-no-volume = None told yet.
form-add-as-marked = Add one, as marked on it
form-in-metres = Meters
form-in-feet = Feet
form-in-kilograms = Kilograms
form-in-pounds = Pounds
form-step-more = { $size } more
form-step-less = { $size } less
form-year = Year
form-month = Month
form-years-later = { $count ->
    [one] 1 year later
   *[other] { $count } years later
 }
form-years-earlier = { $count ->
    [one] 1 year earlier
   *[other] { $count } years earlier
 }
form-damage-what = What
form-damage-where = { $what } where?
# A sentence of damage as it is kept: "Dented: rear left".
form-damage = { $what }: { $where }
form-add-it = Add it

import-vehicle-file = Import a vehicle file
import-here-already = { $name } is here already, just as in this file.
import-refused = Not taken in: { $count ->
    [one] 1 thing is
   *[other] { $count } things are
 } wrong in { $name }
import-twin = There is a { $name } already.
import-keep-both-question = Keep both? The one taken in gets a name of its own.
import-keep-both = Keep both
import-leave-it = Do not take it in
import-kilobytes = { $kb } kB
import-megabytes = { NUMBER($mb, minimumFractionDigits: 1, maximumFractionDigits: 1) } MB
problem-file-too-large = has { $size }, but a vehicle file has { $most } kB at most
problem-did-not-come = did not come over the network
problem-choose-it-again = choose it again

# Finding a vehicle.
vehicles-search = Search: name, plate or VIN
vehicles-none-found = No vehicle is called “{ $typed }”.
vehicles-more = { $count ->
    [one] 1 more vehicle
   *[other] { $count } more vehicles
 }
# Vehicles that come with the app.
vehicles-examples = Examples
vehicles-hide-examples = Hide
vehicles-show-examples = Show
# A code to stick on a vehicle.
vehicle-code = Code
vehicle-code-how = Stick it on the vehicle: a phone that is paired opens this vehicle with it.
