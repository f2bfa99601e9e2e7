# Brakes: chambers, strokes, linings, and the limits of what is measured at them.

# One end of an axle; axles are counted from the front.
brake-wheel-end = axle { $axle }, { $side } end

# Chambers by their kind.
brake-chamber-clamp = clamp chamber
brake-chamber-bolt = bolt chamber
brake-chamber-roto = rotochamber
brake-chamber-dd3 = three-diaphragm chamber
brake-chamber-wedge = wedge brake chamber
brake-chamber-other = chamber that no table lists
brake-chamber-of-type = { $chamber } type { $type }
brake-chamber-long-stroke = long-stroke { $chamber }

# What is measured.
brake-pushrod-stroke = pushrod stroke
brake-lining-movement = lining movement
brake-value-time = time
# A pressure that is read before something is done, and after it.
brake-value-before = { $gauge } before
brake-value-after = { $gauge } after

# Limits, each a clause with where it is published.
limit-at-least = at least { $least }: { $source }
limit-at-most = at most { $most }: { $source }
limit-less-than = less than { $most }: { $source }
limit-at-least-and-at-most = at least { $least }, at most { $most }: { $source }
limit-at-least-and-less-than = at least { $least }, less than { $most }: { $source }
limit-s = { $number } s
limit-percent = { $number } %
brake-stroke-not-known = not known
brake-stroke-unread = the chamber could not be read
brake-stroke-unlisted = the chamber is in no table and its rated stroke is not in the vehicle's file
brake-lining-source = The limit stands in { $source }.
brake-lining-sources = The limit stands in { $source }. Also published: { $also }.
brake-lining-marked = worn to its wear indicator is too thin, where the lining is so marked ({ $source })
brake-lining-one-strip = { $limit } for a shoe with one strip of lining ({ $source })

# What to do about a stroke over its limit.
-qualified = a person qualified for brakes (49 CFR 396.25)
brake-adjuster-automatic = The slack adjuster is automatic: find the cause, do not adjust it. It is worn or wrongly fitted, or the wheel brake has a fault: worn bushings, worn linings, a cracked drum. The repair is for { -qualified }; then measure again.
brake-adjuster-manual = The slack adjuster is manual: it is adjusted by { -qualified }; then measure again.
brake-adjuster-unknown = The vehicle's file does not say whether the slack adjuster is automatic: look. Automatic: find the cause, do not adjust it. Manual: it is adjusted by { -qualified }. Then measure again.
brake-adjuster-built-in = The adjuster is inside the wheel brake. If it is automatic, find the cause, do not adjust it. If not, it is adjusted by { -qualified }. Then measure again.

# What is not checked.
brake-not-covered-air = Braking force and stopping distance are not measured here, and the inside of drums, chambers and valves is not seen.
brake-not-covered-air-over-hydraulic = Air over hydraulic brakes: fluid level, fluid leaks, the travel of the air-powered hydraulic cylinders and the linings are not checked here.
brake-not-covered-electric = Electric brakes: their magnets, wiring, controller, breakaway switch and battery, and the linings are not checked here.
brake-not-covered-surge = Surge brakes: the travel of the coupling, fluid level, fluid leaks, the breakaway cable and the linings are not checked here.
brake-not-covered-none = The vehicle's file names no brakes: if it has brakes, they are not checked here, and whether it must have brakes is not told here.
brake-not-covered-abs = Of the ABS the lamp alone is checked here, not its sensors, valves and stored codes.
brake-not-covered-discs = { $count ->
    [one] Disc brakes on axle { $axles }: rotors, calipers and their guide pins are not checked here, nor the stroke of a pushrod that cannot be seen.
   *[other] Disc brakes on axles { $axles }: rotors, calipers and their guide pins are not checked here, nor the stroke of a pushrod that cannot be seen.
 }

# A row of a step at one end of an axle: "brake hose, left".
brake-row-at-end = { $row }, { $side }
# A chamber in few words, as it stands on a button and is said: "clamp 24, long stroke 3 in". $class
# tells whether it is a long-stroke one; $rated is the stroke marked on it.
chamber-short = { $actuator ->
    [clamp] clamp { $type }
    [bolt] bolt { $type }
    [roto] rotochamber { $type }
    [dd3] three-diaphragm { $type }
   *[other] another kind
 }{ $class ->
    [standard] , standard
    [long] , long stroke
    [rated] , long stroke { $rated }
    [doubt] , can't tell if long
   *[none] { "" }
 }
chamber-short-unread = size not read
chamber-short-unfiled = size not in the file
chamber-tile = { CAPITAL($side) }: { $chamber }
# The limit of the stroke at that end; $from tells where the chamber is known from.
chamber-limit = { $from ->
    [file] Limit { $limit }, as filed
    [doubt] Limit { $limit }, standard: can't tell if long
   *[read] Limit { $limit }, read off it
 }
chamber-no-limit = No limit known: the stroke is written down
chamber-said = { CAPITAL($side) }: { $chamber }. Limit { $limit }.
chamber-said-without-limit = { CAPITAL($side) }: { $chamber }. No limit known.

# Chambers as they were read off at a wheel end.
chamber-not-read = chamber that could not be read
chamber-class-in-doubt = { $chamber }, can't tell if long stroke
limit-class-in-doubt = { $source }; can't tell if it is a long-stroke chamber, so the standard limit counts
# The chamber at one end of an axle; $read tells whether somebody read it off there, or tried to.
chamber-at-end = { $read ->
    [unread] { $side }: could not be read
    [yes] { $side }: { $chamber }, read off it
   *[no] { $side }: { $chamber }, as in the vehicle's file
 }
