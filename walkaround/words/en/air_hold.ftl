# An air hold: what is said while it runs, and what it came to.

# The gauges, by what their air is for: "Read the { $gauge } gauge."
gauge-supply = supply
gauge-service = service
gauge-primary = primary
gauge-secondary = secondary
gauge-named = { CAPITAL($gauge) } gauge

# Said at its time while the minute runs.
hold-cue-start = Start. Read the { $gauge } gauge.
hold-cue-start-mixed = Start. Read the { $gauge } gauge. Tap each mark that the other needle crosses.
hold-cue-start-crossing = Start. Tap the mark that the needle is on, then each mark as it crosses it.
hold-cue-half = { $seconds } seconds. Read the { $gauge } gauge.
hold-cue-seconds = { $seconds } seconds.
hold-cue-stop = Stop. Read the { $gauge } gauge.
hold-cue-go-on = One minute. Go on tapping until it is clear.
hold-cue-more = Read the { $gauge } gauge.
hold-cue-last = Last reading. Read the { $gauge } gauge.
hold-next-gauge = Now the { $gauge } gauge.
# Said after why it is not clear yet.
hold-on = Read at { $seconds } seconds.

# Shown and said while the minute is in and the verdict is not. $whys is one of those below for
# each gauge, with its own full stop; numbers are rates in the reader's unit.
hold-not-clear = Not clear yet: { $whys }
hold-why-few = too few readings.
hold-why-cooling = losing { $rate }, could still be cooling.
hold-why-bounds = between { $low } and { $high }, and the limit is { $limit }.
# Of several readings, and only the next one will tell which.
hold-why-misread = one reading does not fit the others.
hold-does-not-fit = { $value } at { $seconds } s does not fit: misread?
hold-why-of-gauge = { CAPITAL($gauge) } { $why }
hold-of-gauge = { $gauge } { $rate }
# Between which bounds the rate is; only the last has its unit. At most: none may have been lost.
hold-span-loss = losing { $low } to { $high }
hold-span-gain = gaining { $low } to { $high }
hold-span-at-most = { $seen ->
    [yes] losing at most { $high }
   *[no] no leak measurable; at most { $high }
 }

# What it came to. $moved is whether pressure was lost or gained.
hold-result = { $verdict ->
    [over] { CAPITAL($gauge) } gauge { $moved ->
        [gained] gained
       *[lost] lost
     } { $rate }. Over the limit of { $limit }.
   *[within] { CAPITAL($gauge) } gauge { $moved ->
        [gained] gained
       *[lost] lost
     } { $rate }. Within the limit of { $limit }.
 }
hold-result-settling = { CAPITAL($gauge) } gauge: the air is still settling.
hold-result-rising = { CAPITAL($gauge) } gauge: the pressure rose.
# It must be held again; $why is one of `hold-why` or `hold-does-not-fit`.
hold-result-none = { CAPITAL($gauge) } gauge: no result. { CAPITAL($why) }
hold-result-undecided = { CAPITAL($gauge) } gauge: undecided, { $why } By the plain rule it { $moved ->
    [gained] gained
   *[lost] lost
 } { $rate }: { $verdict ->
    [over] over
   *[within] within
 } the limit of { $limit }.
# Large above one gauge's result; $rate and $limit are rates, whose unit stands below.
hold-verdict-within = Within limit: { $rate } ({ $strict ->
    [yes] below
   *[no] max
 } { $limit })
hold-verdict-over = Over the limit: { $rate } ({ $strict ->
    [yes] must be below
   *[no] max
 } { $limit })
# The plain rule is what a stopwatch and a card give: the drop over the minute against the limit.
hold-plain-rule = Plain rule: { $moved ->
    [gained] gained
   *[lost] lost
 } { $rate }, { $verdict }.
verdict-within = within
verdict-over = over
verdict-undecided = undecided
verdict-settling = settling
verdict-rising = rising
hold-settling-cooling = It cooled: air just charged is warm, and cooling air looks like a leak. Wait two minutes, charge up to the set pressure, then start again.
hold-settling-misread = Nothing can be told from a hold with such a reading. Charge up to the set pressure, then start again.
hold-settling-uneven = It fell and rose again, so the air has not settled. See that the source is shut. Wait two minutes, charge up to the set pressure, then start again.
hold-settling-rising = The pressure rose. See that the source is shut. Wait two minutes, top up to the set pressure, then hold again.
hold-ended-time-up = Five minutes did not decide it, so the plain rule result stands.
hold-ended-early = Ended early at { $seconds } seconds: the plain rule result stands.
hold-bounds = { CAPITAL($span) }, on a gauge with marks every { $step }.
hold-limit = { $strict ->
    [yes] Limit less than { $limit }: { $source }.
   *[no] Limit at most { $limit }: { $source }.
 }
source-from-memory = { $source } (from memory)
source-none = { $source } (no source)
hold-also = Also published: { $also }.
hold-corrected = Air { $start } at the start, { $end } at the end. Loss without what that did: { $rates }. For information; the verdict stays.
# One reading, and one for the record.
hold-reading = { $value } at { $seconds } s
hold-recorded = { $gauge } { $seconds } s { $value } { $unit }
# Said after a reading that was mended; $values lists what stood for it before.
hold-recorded-mended = { $reading } (entered as { $values } at first)
hold-recorded-crossed = { $gauge } { $seconds } s { $value } { $unit } crossed

# Why a hold is void.
hold-void-restarted = The computer restarted during the air hold, so its time is lost: hold again.
hold-void-slept = The computer slept during the air hold: hold again.
hold-void-away = The computer slept, was restarted or its clock was set during the air hold: hold again.
hold-void-no-mark = No mark was tapped on the { $gauge } gauge: hold again.
# $problem is one of those in readings.ftl.
hold-void-readings = { CAPITAL($problem) }: hold again.

# The leak in plain terms.
leak-none = No air was lost.
leak-too-small = The leak is too small to be told from none.
leak-untold = How large the leak is cannot be told from these readings.
leak-size = About { $flow } of free air, like a round hole of { $hole }.
# $falls lists `leak-to-warning` and `leak-to-spring-brakes`.
leak-falls = At this rate { $falls }.
leak-to-warning = { $pressure } (low-pressure warning) { $when }
leak-to-spring-brakes = { $pressure } (spring brakes may apply) { $when }
leak-now = is reached already
leak-soon = in less than 1 min
leak-minutes = after about { $minutes } min
leak-hours = after about { $hours } h
leak-days = after more than a day
leak-assumed = Assumed: { $volume } of trapped air that stays as warm as it is, and a sharp-edged hole with a discharge coefficient of { $discharge }.

# What a gauge on trapped air shows at another altitude; $up is whether it is higher.
altitude-same = A gauge shows the same at { $end } as at { $start }.
altitude-other = { $up ->
    [yes] Trapped air that shows { $set } at { $start } shows { $same } at { $end } if it stays as warm, as the air outside is thinner. If it turns as cold as standard air ({ $start_c } at { $start }, { $end_c } at { $end }), it shows { $taken }.
   *[no] Trapped air that shows { $set } at { $start } shows { $same } at { $end } if it stays as warm, as the air outside is denser. If it turns as warm as standard air ({ $start_c } at { $start }, { $end_c } at { $end }), it shows { $taken }.
 }

# The screens of an air hold.
gauge-in-unit = { CAPITAL($gauge) } gauge, { $unit }
hold-lower = Lower
hold-higher = Higher
hold-at-mark = As it was at the mark, { $seconds } s
hold-look-again = Look again now: it counts from { $seconds } s
hold-needle-crosses = needle crosses
hold-needle-on = needle is on
# Before the second and third mark that may be meant instead.
hold-or = or
hold-start = Start the minute
hold-again = Hold again
# Always in sight while a hold runs.
hold-stop = Stop
hold-end-plain = Stop and use the one-minute drop
# Why a hold is void that the mechanic gave up; it stands in the record.
hold-void-stopped = The mechanic stopped the air hold.
hold-next-tap = Tap each mark as the needle crosses it. Touch no valve.
# $gauges lists those that are read as numbers.
hold-next = { $count ->
    [one] Next: the { $gauges } gauge. Touch no valve.
   *[other] Next: the gauges { $gauges }. Touch no valve.
 }
hold-elapsed = { $seconds } s since the start
hold-tap-to-mend = Tap a reading to change it.
# A value that is far from the last one, and what may have been meant.
hold-jump = { $meant }, not { $read }?
hold-jump-said = Which was it?
hold-jump-last = Tap what the gauge showed. The last reading was { $last } { $unit }.
# A reading that was entered wrong.
hold-mend = { CAPITAL($gauge) } gauge at { $seconds } s: what did it show?
hold-mend-keep = Keep { $value } { $unit }
hold-mend-not-crossed = The needle has not crossed { $value }: take it back
# Beside the large seconds: what they are.
hold-clock-left = left of the minute
hold-clock-held = held
hold-clock-to-next = to the next reading
hold-clock-said-left = { $seconds } seconds left
hold-clock-said-held = { $seconds } seconds held
hold-clock-said-to-next = { $seconds } seconds to the next reading
hold-air-button = Air temperature
hold-air-title = Temperature of the air
hold-air-where = At the reservoir, else around it.
hold-air-start = At the start
hold-air-end = At the end
hold-air-keep = Keep with the hold
chart-of = Chart of the { $gauge } gauge, { $unit }: { $readings }
chart-no-reading = no reading yet
chart-title = { $gauge }, { $unit }
chart-limit = limit
