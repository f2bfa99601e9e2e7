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
# 60 to 120 flashes a minute are right: SAE J945, 3, as a letter of the federal agency of 2003 has it
# (read 2026-11-26), and SAE J590b for turn signals (memory); UN R48, 6.5.9.1, 90 plus or minus 30
# (memory).
seen-flashes-fast = flashes too fast (over 120 a minute)
seen-flashes-slow = flashes too slowly (under 60 a minute)
seen-flashing = flashing, should be steady
seen-pulses = pulses with the turn signal
seen-glows = glows faintly
# Of an LED lamp.
seen-some-out = some diodes out
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
