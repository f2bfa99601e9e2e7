# The first screen, records, settings, and the pairing of other devices.

# The app's own name, the same in every language.
app-name = walkaround
home-what-it-is = Lamps and air brakes, one step at a time
home-go-on = Continue
home-more-going = { $count ->
    [one] 1 more is under Records.
   *[other] { $count } more are under Records.
 }
home-start-a-walk = Start a walk
home-unfinished = Unfinished, at step { $at } of { $steps }, begun { $day } { MONTH($month) }, { $time }

records-title = Records
records-none = No walk yet. Start one from the first screen.
records-none-such = No such record.
records-search = Vehicle, person, defect
# Which records are shown.
records-all = All
records-with-defects = Open defects
records-unfinished = Unfinished
records-older = Older ones ({ $count })
record-going = { $answered } of { $steps } answered{ $count ->
    [0] { "" }
   *[other] , { defects-open }
 }
record-closed = Closed, { defects-open }{ $ended ->
    [partial] , partial
   *[whole] { "" }
 }

settings-title = Settings
settings-data = Records are kept in { $folder }
# Above what each phone has for itself, and above what all phones of a shop have in common.
settings-this-phone = This phone
settings-this-shop = This shop
settings-shared = Gauges, pressures and limits are shared: a change here is a change on every phone.
settings-language = Language
# Where a language does not have every message yet; it is said in the language that it falls back to.
settings-language-lacks = { $count ->
    [one] 1 text is still in English.
   *[other] { $count } texts are still in English.
 } What is spoken is in English until none is.
settings-prompts = Prompts
settings-brisk = Brisk
settings-short = Short
settings-with-reasons = With reasons
settings-voice = Voice
# How many seconds of silence there are before a step is said again by itself.
settings-repeat = Say a step again by itself
settings-repeat-never = Never
settings-repeat-after = After { $seconds } s
settings-spoken = Spoken
settings-silent = Silent
settings-slower = Slower
settings-faster = Faster
settings-softer = Softer
settings-louder = Louder
settings-rate = { $words } words a minute, { NUMBER($volume, style: "percent") } loud
# Spoken when rate or loudness change.
settings-sample = Stop lamps on. Both stops on; rest dark.
settings-colors = Colors
settings-as-phone = As phone
settings-light = Light
settings-dark = Dark
settings-text-size = Text size on this phone
settings-percent = { $percent } %
settings-pressures = Pressures in
settings-lengths = Lengths in
settings-inches = Inches
settings-millimetres = Millimeters

# What the shop goes by for a lone trailer on its own air; $figure is a pressure or a rate.
shop-title = Your shop's figures for a lone trailer
shop-why = No rule has figures for a trailer on shop air. These are common practice, no source: change what your shop does otherwise. The record names them.
shop-supply-psi = Supply line, charged to
shop-service-psi = Control line, charged to
shop-released-psi-per-min = Brakes released, at most
shop-applied-psi-per-min = Brakes applied, at most
# Spoken by screen readers for the buttons beside a figure.
shop-less = Less: { $what } { $figure }
shop-more = More: { $what } { $figure }
shop-go-by = Go by these
shop-goes-by = Your shop goes by these.

pairing-title = Other devices
# --lan stands in commands as it is.
pairing-this-device-only = Only this device is served. Start walkaround with --lan to let in others.
pairing-scan-this = Scan this with the other device, or open the address there.
pairing-whoever-has-it = Whoever has this address can answer for you and read every record. A device that opened it stays paired until the key is changed.
pairing-code = Code of the address
pairing-new-key = New key
pairing-warning = With a new key every device is dropped at once, this one too. To pair them again, scan the code that the computer running walkaround then shows in its terminal.
pairing-keep = Keep it
pairing-drop-all = Drop all

# On a phone's first start: a step to try.
first-title = Try one step: 20 seconds
first-why = It talks you through a walk: you hear what to set and what to see, look, and tap what is so.
first-play = Play a step
first-skip = Skip
first-step-said = Tail lamps on. Both tails on; rest dark.
first-step-title = Tail lamps, rear
first-step-words = Tail lamps on. Both tails on; rest dark.
first-after-ok = OK: it is saved, and the next step is said.
first-does-ok = So you walk once round the vehicle with your eyes on it, and tap after each look.
first-after-defect = Defect: it asks which lamp, and what is wrong with it.
first-does-defect = It stays in sight, loud, until that very step is looked at again and is OK. Likely causes are told, with what to measure next.
first-nothing-kept = This was a trial: nothing was recorded.
first-done = Start
