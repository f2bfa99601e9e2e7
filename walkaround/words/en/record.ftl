# What the record of a walk says, on screen and in the files for others.

record-notice = A check of lamps and air brakes: what was checked, found and not checked. Not a periodic inspection (49 CFR 396.17). Brake repairs are signed off by qualified people (49 CFR 396.25).
record-air-shop = Air from the shop's line.
record-air-coupled = Air from the vehicle that tows it.
record-towed = Units towed: { $count }.
# What a lone trailer on shop air is charged to, and what it may lose in a minute.
shop-figures = { $whose ->
    [shop] This shop's own figures for a lone trailer on its air: supply { $supply }, control { $service }; at most { $released } with brakes released, { $applied } applied.
   *[shipped] Figures used for a lone trailer on shop air: supply { $supply }, control { $service }; at most { $released } with brakes released, { $applied } applied (common practice, no source).
 }
# Why a step has no answer.
record-walk-ended = walk ended
# An air hold that does not count.
record-void = void: { $why }
record-bounds = { CAPITAL($span) }.
# With what an answer was given.
record-by-tap = tapped
record-by-key = by key
record-by-voice = by voice
