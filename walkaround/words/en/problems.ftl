# What is wrong with a value that a person wrote, and how to mend it: two clauses of the message
# `problem`, the second an instruction, neither with a full stop. What is wrong has the key as its
# subject ("width_mm: is missing") unless it is a sentence of its own.

problem-is-missing = is missing
problem-add-the-key = add the key { $key }
problem-no-such-key = there is no such key
problem-perhaps = perhaps { $name } is meant
problem-use-one-of = use one of: { ITEMS($names) }
problem-not-allowed = is { $value }, which is not allowed here
problem-other-fault = is { $value }: { $fault }
problem-correct-the-value = correct the value

# A value as it stands in the file, where that would be too long.
problem-value-table = a table
problem-value-list = a list

problem-is = is { $value }
problem-write-above = write a number above { $bound }
problem-write-not-below = write a number not below { $bound }
problem-write-not-above = write a number not above { $bound }

problem-needs-finite-number = is { $value } where a finite number is needed
problem-write-finite-number = write a number
problem-needs-id = is { $value } where a plain id is needed
problem-write-id = write small letters, digits and underscores only
problem-needs-text = is { $value } where text is needed
problem-write-text = put the text in quotes
problem-needs-number = is { $value } where a number is needed
problem-write-number = write a number of ordinary size, without quotes
problem-needs-whole-number = is { $value } where a whole number is needed
problem-write-whole-number = write a whole number without quotes
problem-needs-true-or-false = is { $value } where true or false is needed
problem-write-true-or-false = write true or false without quotes
problem-needs-date = is { $value } where a date is needed
problem-write-date = write it as year-month-day, such as 2011-04-01
problem-needs-list = is { $value } where a list is needed
problem-write-list = put the values in [square brackets]
problem-needs-table = is { $value } where a table is needed
problem-write-table = write it as a [table] or as { "{" } key = value { "}" }

# What keeps a file from being read, and how to mend it.
file-holds-nothing = holds nothing
file-mend-holds-nothing = fill it in or delete it
file-no-plain-file = cannot be read (it is no file)
file-mend-no-plain-file = check that it is a file you may read
file-no-such-file = there is no such file
file-mend-no-such-file = check the path
file-no-text-file = is not a text file
file-mend-no-text-file = write it as TOML text
file-not-utf-8 = holds characters that are not UTF-8
file-mend-not-utf-8 = save it as UTF-8 text
file-key-of-too-many-parts = a key has too many parts
file-mend-key-of-too-many-parts = flatten the tables
file-tables-nested-too-deep = tables are nested too deep
file-mend-tables-nested-too-deep = flatten them
file-number-too-long = holds a number of thousands of digits
file-mend-number-too-long = write one of ordinary size
# In brackets: why, as the computer says it.
problem-cannot-be-read = cannot be read ({ $reason })
problem-check-that-you-may-read-it = check that it is a file you may read
problem-not-valid-toml = this is not valid TOML ({ $fault })
problem-correct-the-line = correct the line, quotes and brackets first
problem-larger-than = is larger than { $kb } kB
problem-split-it = split it into smaller files

# Too much of something, and texts and numbers that cannot be.
problem-nested-too-deep = is nested too deep
problem-flatten-it = flatten it
problem-too-many-things = holds { NUMBER($count, useGrouping: 0) } things, { NUMBER($most, useGrouping: 0) } at most
problem-keep-what-is-needed = keep what is needed, or split the file
problem-too-many-values = holds more than { NUMBER($most, useGrouping: 0) } values
problem-more-problems = has { NUMBER($count, useGrouping: 0) } more problems
problem-mend-these-first = mend these first, then check again
problem-number-too-large = is a number too large to be meant
problem-write-one-up-to = write one up to { $most }
problem-line-break-or-tab = holds a line break or a tab
problem-write-in-one-line = write it in one line, with blanks
problem-hidden-character = holds { $character }, which is not seen
problem-take-that-character-out = take that character out
problem-too-many-characters = has { NUMBER($count, useGrouping: 0) } characters, { NUMBER($most, useGrouping: 0) } at most
problem-say-it-shorter = say it shorter
problem-write-from-to = write a value from { $least } to { $most }

# Two things with one id.
problem-id-is-taken = { $id } is already the id of { $file }
problem-give-one-another-id = give one of them another id
problem-lamp-rule-is-elsewhere = { $file } has a lamp rule of this id, which is the one that counts
problem-give-this-one-another-id = give this one another id

problem-choose-a-vehicle-file = choose a vehicle file
problem-vehicle-is-not-own = was not made in this app, or has been deleted
problem-copy-a-vehicle = copy a vehicle and change the copy

# Brake chambers; the words in quotes stand in files.
problem-no-stroke = is { $value }, not the stroke of a brake chamber in inches
problem-unlisted-type = is { $type }, which no stroke table lists for a { $actuator } chamber
problem-type-or-other = { $near }, or set actuator = "other" and rated_stroke_in
problem-unlisted-long-stroke = is true, but no table lists a long-stroke { $actuator } chamber { $type }
problem-false-or-correct-type = set it to false or correct type
problem-missing-and-unlisted = is missing, and no table lists such an actuator
problem-give-the-rated-stroke = give the rated stroke marked on the actuator, in inches
problem-give-one-of = give one of: { ITEMS($names) }

# Bulbs, by their trade numbers.
problem-bulb-of-other-volts = is { $bulb }, a { $of } V bulb in a { $volts } V vehicle
problem-correct-the-bulb = correct the number or volts; { $volts } V bulbs: { ITEMS($bulbs) }
problem-unlisted-bulb = is { $bulb }, which the bulb table lacks
problem-bulb-or-led = { $near }, or write "led"
