# Keys that answer: page-turners, presenters, foot switches, number keys.

# Why this step, or this answer to it, is not taken from a key.
key-answers-step-needs-tap = Takes a tap: no key or voice answers it.
key-answers-recheck-needs-tap = Recheck: only a tap says OK.
key-answers-defect-needs-tap = A defect is open here: only a tap says OK.
# Said after an answer that was given by a key: what it was taken for, and what was seen.
key-answers-echo = { $answer }.
key-answers-echo-seen = { $answer }: { $seen }.
key-answers-taken-back = Taken back.
# Said at the end of a round around the vehicle; $defects names where, $left counts what was left out.
key-answers-round-over = { $rounds ->
    [one] Lamps done
   *[other] Round { $number } done
 }: { $count ->
    [0] no defect
    [one] 1 defect, { $defects }
   *[other] { $count } defects, { $defects }
 }{ $left ->
    [0] .
    [one] ; 1 look not checked.
   *[other] ; { $left } looks not checked.
 }
key-answers-round-defect = { $step }: { $seen }
# On a step: which key is for which answer.
key-answers-key = { $key } { $action }

keys-title = Keys and pedals
keys-what = A page-turner, a presenter, a foot switch, number keys: whatever acts as a keyboard of this phone, and a headset button where the browser tells of it. Tap what a key should do, then press it once.
keys-never = Keys answer looks at lamps and reflectors, and other plain looks. All else takes a tap: chocks, air, brakes, gauges, rechecks, closing a walk.
keys-take-back = Back, within 10 seconds of an answer by a key, takes that answer back.
keys-for-ok = OK
keys-for-defect = Defect
keys-for-again = Again
keys-for-explain = Explain
keys-for-back = Back
keys-for-talk = Hold to talk
keys-learnt-for = { $action }: { $keys }
keys-none-for = { $action }: no key
keys-press-now = { $action }: press its key now
keys-learnt = { $action }: learnt.
keys-cannot-be-learnt = That key cannot be learnt: press another.
keys-forget = Forget all keys
