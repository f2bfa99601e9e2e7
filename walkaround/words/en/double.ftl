# A double check: two people walk one vehicle, each without seeing the other's answers.
start-walkers = Walked by
start-double-one = One person
start-double-two = Two, each alone
# What it means when two walk; shown below the choice.
start-double-how = The second person starts on a phone of their own. Neither sees the other's answers until both walks are closed.
# On the start screen of a vehicle that somebody walks already.
double-waits = { $who } walks this vehicle for a double check.
double-waits-how = You can walk it too, on your own. You see nothing of the other walk until both are closed.
double-other-name = The second walk needs another name than the first: choose yours below.
double-second = Walk it as the second
double-shut = { $who } walks this vehicle for a double check. The answers are shown once both walks are closed.
# In lists, instead of what a walk found.
double-under-way = Double check under way
double-compare = Compare both walks
double-title = Double check
double-not-yet = Both walks have to be closed before they are compared.
double-walkers = { $first } and { $second }
double-differences = { $count ->
    [0] No differences
    [one] 1 step differs
   *[other] { $count } steps differ
 }
double-alike = Same answer for { $alike } of { $things } things looked at.
double-kappa = Cohen's kappa: { $kappa }
double-kappa-what = 1 is full agreement, 0 no more than chance would give.
double-no-kappa = No kappa: nothing differs that chance could explain.
# Which lamps or wheel ends of a step differ.
double-of = Differs: { ITEMS($things) }
double-read = Same answer, but the readings are further apart than the marks of the scale.
double-records = The records
double-record = Record of { $who }
double-sign = Instructor
double-sign-what = Whoever signs has looked at both walks with the two who made them.
double-instructor = Instructor's name
double-sign-other = One of the two walkers cannot sign for both.
double-sign-now = Sign
double-signed = Signed: { $who }, { $time }
# Instead of a file of a walk.
double-files-wait = This walk is part of a double check. Its files can be had once both walks are closed.
