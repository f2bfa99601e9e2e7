# What is shown and said for a step. The place, how the circuits are switched on, what must be seen
# and what a lamp is for are sentences of their own, said one after the other.

place-front = At the front.
place-right-side = Along the right side.
place-rear = At the rear.
place-left-side = Along the left side.
place-cab = In the cab.
place-source = At the source.

# The title of a step, said where the step has no brisk words of its own.
prompt-title = { $title }.

# One circuit alone is lit. $lamps are counted, as in `lamps.ftl`.
prompt-alone = { $look ->
    [flashing] { CAPITAL($lamps) }, flashing. Nothing else lit.
   *[steady] { CAPITAL($lamps) }, steady. Nothing else lit.
 }
# Several circuits are lit: one sentence for each look.
prompt-lit = { $look ->
    [steady] Steady: { $lamps }.
    [flashing] Flashing: { $lamps }.
   *[dark] Dark: { $lamps }.
 }
# Always more than one.
prompt-lamps-in-all = { $count } lamps in all.
prompt-no-flasher = A box without a flasher lights it steady: that is right too.
prompt-abs-stand = Stand where you see the ABS lamp.
prompt-abs-short = It lights for a moment, then goes out.
prompt-abs-long = Never lit, or lit to stay, is a defect. Missed it? Switch off and on again. Some stay lit until the trailer has moved, to clear a stored fault: note that.
prompt-reflectors = { CAPITAL($things) }: there, whole and clean?
# Said of a contact whose use is in doubt before it is fed; $why is a clause.
prompt-meter-first = Meter first: { $why }.

# Said when every step has its answer.
summary-all-checked = Every step has an answer. { $defects }. Look through it and close the record.
summary-some-left = Every step has an answer. { $defects }. { $left } not checked. Look through it and close the record.
open-defects = { $count ->
    [0] No open defect
    [one] { $count } open defect
   *[other] { $count } open defects
 }

# Several lamps that differ by their side alone: "two tail lamps", "two tail lamps and stop lamps".
# $lamps is made of `lamp-plural`. Where the name of a lamp has no such plural, say the number some
# other way, and let `lamp-plural` be { $lamp }.
lamps-counted = { SPELLED($count) } { $lamps }
lamp-plural = { $lamp }s
# Lamps that differ by their first word, $firsts, and share the others: "front and rear side marker
# lamps". A language in which this cannot be said leaves the message out.
lamps-sharing = { $firsts } { $lamp }s
