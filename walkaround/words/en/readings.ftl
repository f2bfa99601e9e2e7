# What can be wrong with the readings of an air hold, with a log of them, and with a number that is
# given to the functions which judge them: what is wrong, and (`-mend`) how to put it right. Both go
# into `problem`, so neither has a capital or a full stop.

readings = readings
reading-number = readings, reading { $number }
readings-few = only { $count } given
readings-few-mend = take at least { $least }
readings-many = { $count } given
readings-many-mend = leave out all but { $most }
reading-no-time = { $seconds } s is no time in a hold
reading-no-time-mend = 0 to { $most } s is
reading-no-pressure = { $pressure } { $unit } is no gauge pressure
reading-no-pressure-mend = 0 to { $most } { $unit } is
reading-not-later = its time does not rise
reading-not-later-mend = put readings in order of time
crossing-twice = it is the mark of the tap before
crossing-twice-mend = tap each mark once
crossing-no-mark = { $psi } psi is no mark
crossing-no-mark-mend = marks are { $step } psi apart

argument = argument
argument-bad = { $value } cannot be
argument-mend = give { $least } to { $most }
gauge-too-coarse = step is { $step } { $unit }, which no brake gauge has; give at most { $most } { $unit }
watched-mend = give a time after the last tap, { $most } s at most

line-in-file = { $where }, line { $line }
log-too-many = holds more than { $most } readings
log-too-many-mend = leave out the others
log-empty = holds nothing
# seconds, psi, kPa and bar are names of columns, the same in every language.
log-empty-mend = write a line seconds,psi (or kPa, or bar) and the readings
# A row of a table has more cells than the table has columns.
log-wide = has { $values } values for { $columns } columns
log-wide-mend = part columns with ; where a comma is the decimal point
log-no-row-mend = write plain numbers
# $names are names of columns, of which there must be one; $name below is one, too.
log-columns = { $count ->
    [0] has no column { EITHER($names) }
   *[other] has { $count } columns { $names }
 }
log-columns-mend = name the columns in the first line: seconds,psi (or kPa, or bar)
log-no-number = { $name } is { $cell }
log-no-number-mend = write a plain number
