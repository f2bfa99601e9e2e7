# Why a walk does not allow an event now. $step is the id of a step.

refused-phase = A walk that is { $phase ->
    [unstarted] unstarted
    [stepping] stepping
    [holding] holding
    [paused] paused
   *[finished] finished
 } takes no event '{ $kind }'.
refused-order = Event { $number } does not follow event { $last }.
refused-no-step = This walk has no step '{ $step }'.
refused-same-photo = This photo is in the record already.
refused-more-photos = A walk holds { $most } photos at most.
refused-late = Step '{ $step }' is not the one being asked.
refused-no-hold = Step '{ $step }' is no air hold.
refused-no-correction = There is no air hold to correct.
refused-no-gauges = Step '{ $step }' asks for no gauges.
refused-no-stopwatch = Step '{ $step }' has no stopwatch.

refused-must = Step '{ $step }' cannot be skipped.
refused-reason = A reason goes with 'not checked', and only with it.
refused-fault = A fault seen makes the answer a defect.
refused-no-item = Step '{ $step }' has nothing called '{ $item }'.
refused-missing = What the rules require is missing, not 'not fitted'.
refused-not-fitted = Step '{ $step }' is required, so it cannot be 'not fitted'.

refused-outside = A value lies outside its limit: that is a defect.
refused-not-within = The step is OK only when every value is in and within its limit.
refused-gauges-untold = The gauges have not been told of yet.
refused-waiting = { $seconds } s are still to go.
refused-no-value = Step '{ $step }' takes no value called '{ $value }'.
refused-unit = Step '{ $step }' takes no value in { $unit }.
stopwatch-restarted = The computer restarted while the time ran: start again.
stopwatch-slept = The computer slept while the time ran: start again.
stopwatch-away = The computer slept, was restarted or its clock was set while the time ran: start again.

refused-minute = The last reading of the minute is not in yet.
refused-not-ended = The hold has not come to that yet.
refused-misread = A reading does not fit the others, so the plain rule cannot judge: hold again.
refused-over = The air hold lost more than its limit: that is a defect.
refused-hold-unread = An air hold is answered after its last reading.
refused-settling = The air was still settling: hold again.
refused-left-over = The air hold lost more than its limit: answer step '{ $step }' first.
refused-no-reading = This hold reads no gauge '{ $gauge }'.
refused-read-already = The { $gauge } gauge was already read at or after { $seconds } s.

refused-no-such-reading = The '{ $gauge }' gauge was not read at { $seconds } s.
refused-mending = This reading of the '{ $gauge }' gauge stays: stop the hold and hold again.

refused-unanswered = Step '{ $step }' has no answer yet to go back to.
refused-no-defect = Step '{ $step }' has no open defect to recheck.
refused-recheck = The vehicle is no longer as that step needs it: recheck it in a walk of its own.

refused-no-end = Step '{ $step }' asks for no chamber there.
refused-stroke-taken = A stroke was held against the limit of this chamber: read it again in a walk of its own.
refused-unlike = The chambers at the two ends are not alike: that is a defect.
refused-no-choice = Step '{ $step }' has no choice '{ $choice }'.
refused-unchosen = Step '{ $step }' is done in one of several ways: say which.
