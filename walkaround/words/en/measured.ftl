# Measured values: what was read, against which limit, and what it comes to.

judged-within = within
judged-over = over
judged-under = under
judged-unbounded = written down
judged-unmeasured = not measured

bound-at-least = at least { $bound }
bound-more-than = more than { $bound }
bound-at-most = at most { $bound }
bound-less-than = less than { $bound }
bound-short-at-least = min { $bound }
bound-short-more-than = above { $bound }
bound-short-at-most = max { $bound }
bound-short-less-than = below { $bound }

# How far a pressure fell, in percent of what it was.
measured-drop = drop { $percent } %
# "68 psi, at least 60 psi: within"
measured-judged = { $read }: { $judged }
measured-of-value = { $name } { $judged }
measured-outcome = { $outcome }.
measured-next = Now { $name }.
measured-limit = Limit: { $limit }.
measured-no-limit = No limit is known. The value is only written down.
measured-no-limit-why = No limit is known: { $why }. The value is only written down.
# Pushrod strokes at the two ends of an axle.
strokes-apart = Axle { $axle }: left { $left }, right { $right }, { $difference } apart.
strokes-far-apart = Axle { $axle }: left { $left }, right { $right }, { $difference } apart. That is more than { $most } apart: find the cause (common practice, no source).

# What a gauge is like, and whether all stood at zero, for the record.
gauge-told = { $gauge }: { $unit }, marks of { $step }
gauge-told-crossing = { $gauge }: { $unit }, marks of { $step }, tapped as the needle crosses a mark
gauges-zero = zero seen at { $altitude }
gauges-not-zero = not at zero
# Gauges that this walk did not ask for, since they were known from an earlier one.
gauges-remembered = Gauges as remembered, their zero seen earlier that day: { $gauges }; the site { $altitude } above the sea.
