# What is shown and said for a step. The place, how the circuits are switched on, what must be seen
# and what a lamp is for are sentences of their own, said one after the other.

place-front = Front.
place-right-side = Right side.
place-rear = Rear.
place-left-side = Left side.
place-cab = In the cab.
place-source = At the source.

# The title of a step, said where the step has no brisk words of its own.
prompt-title = { $title }.

# What must be seen: clauses, as in "both tails, plate lamp on; left turn flashing; rest dark".
prompt-seen = { CAPITAL($clauses) }.
prompt-lit = { $lamps } on
prompt-flashing = { $lamps } flashing
# Signals that flash in one housing with lamps that stay on.
prompt-flashing-over = { $count ->
    [one] { $signals } flashing, { $lamps } stays on
   *[other] { $signals } flashing, { $lamps } stay on
 }
prompt-rest-dark = rest dark
prompt-all-dark = all dark
prompt-no-flasher = A box without a flasher lights it without flashing: that is right too.
prompt-abs-stand = Watch the ABS lamp.
prompt-abs-mirror = Find the ABS lamp in the mirror.
prompt-abs-short = It lights, then goes out.
prompt-abs-brisk = On, then out.
prompt-abs-long = It lights for a few seconds. Never lit, or lit to stay, is a defect. Missed it? Switch off and on again. Some stay lit until the trailer has moved, to clear a stored fault: note that.
prompt-reflectors = { $count ->
    [one] { CAPITAL($things) }: there, not broken, clean?
   *[other] { CAPITAL($things) }: all there, none broken, clean?
 }
prompt-reflectors-brisk = { CAPITAL($things) }.
prompt-anything-else = Anything else?
# Shown, not said, of a contact whose use is in doubt before it is fed; $why is a clause.
prompt-meter-first = Meter first: { $why }.

# Said when every step has its answer.
summary-all-checked = Every step has an answer. { $defects }. Look through it and close the record.
summary-some-left = Every step has an answer. { $defects }. { $left } not checked. Look through it and close the record.
# And this, where a repair can have changed what was OK before it.
summary-due-said = { $count ->
    [one] One step to look at again after a repair.
   *[other] { CAPITAL(SPELLED($count)) } steps to look at again after a repair.
 }
open-defects = { $count ->
    [0] No open defect
    [one] { $count } open defect
   *[other] { $count } open defects
 }

# Several lamps of a kind: "both tails", "three ID lamps". $lamps is made of `lamp-plural`. Where a
# name has no such plural, say the number some other way, and let `lamp-plural` be { $lamp }.
lamps-both = both { $lamps }
lamps-counted = { SPELLED($count) } { $lamps }
lamp-plural = { $lamp }s
