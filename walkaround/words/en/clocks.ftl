# What the computer's clocks did during a walk: one sentence of each kind, for the record. The first
# of each pair tells of one time, the second of several. $place is one of the last two.

clock-back-once = The clock of the computer was set back { $span } during this walk, { $place }.
clock-back-often = The clock of the computer was set back { $count } times by { $span } at most during this walk, first { $place }.
clock-ahead-once = The clock of the computer was set forward { $span } during this walk, { $place }.
clock-ahead-often = The clock of the computer was set forward { $count } times by { $span } at most during this walk, first { $place }.
clock-restarted-once = The computer was restarted during this walk, { $place }.
clock-restarted-often = The computer was restarted { $count } times during this walk, first { $place }.
clock-slept-once = The computer slept { $total } during this walk, { $place }.
clock-slept-often = The computer slept { $count } times during this walk, { $total } in all, first { $place }.
# Where the system does not tell sleep, restart and a clock set apart.
clock-away-once = The computer slept, was restarted or had its clock set forward { $total } during this walk, { $place }.
clock-away-often = The computer slept, was restarted or had its clock set forward { $count } times during this walk, { $total } in all, first { $place }.
clock-place-start = before its first answer
clock-place-step = after step "{ $step }"

span-seconds = { $seconds } s
span-minutes = { $minutes } min
span-hours = { $hours } h
span-hours-minutes = { $hours } h { $minutes } min
# Never one: less than two days are told in hours.
span-days = { $days } days
