# Answers to a step, reasons for not checking, and what can be seen wrong.

answer-ok = OK
answer-defect = Defect
answer-missing = Missing
answer-not-fitted = Not fitted
answer-not-checked = Not checked
# OK to a step that asks for an act.
answer-done = Done

reason-no-power = No power
reason-no-air = No air
reason-cannot-reach = Cannot reach or see it
reason-in-the-way = Load or dirt in the way
reason-no-tool = No tool or part
reason-no-time = No time now
reason-other = Another reason

# What was seen of one lamp or wheel end.
seen-of-item = { $item } { $seen }
seen-dark = dark
seen-dim = dim
seen-too-bright = too bright
seen-cracked = cracked
seen-dirty = dirty
seen-flickers = flickers
seen-steady = steady, should flash
seen-flashing = flashing, should be steady
seen-stays-on = stays on
seen-wrong-lamp = lit, should be dark
seen-wrong-colour = wrong color
seen-built-so = on another wire, as it was built: no fault
seen-broken = broken
seen-loose = loose
seen-missing = missing
seen-not-fitted = not fitted
seen-no-movement = does not move
seen-leak = leaks
seen-worn = thinner than its limit
seen-differs = not the same as the other end
seen-dead = dead
seen-other = something else
