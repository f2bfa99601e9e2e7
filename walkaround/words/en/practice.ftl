# Practice: a walk on a vehicle that is only on the screen. Every screen of it says so.
practice-title = Practice
practice-strip = Practice: touch nothing real.
# $caution is the caution of the step itself.
practice-caution = Practice: touch nothing real. { $caution }
practice-what = A walk on a vehicle that exists only on the screen, with one thing wrong. Answer what you see, hear and read. At the end you learn what you missed.
practice-apart = Practice is kept apart from records. Nobody can hand it on as a check.
practice-which-vehicle = On which vehicle?
practice-which-level = How hard?
practice-level-dead-lamp = One dead lamp
practice-about-dead-lamp = One bulb or lamp is out.
practice-level-bad-ground = A bad ground
practice-about-bad-ground = Lamps of one corner go dim or dark, or light the wrong ones.
practice-level-crossed-turns = Crossed turn signals
practice-about-crossed-turns = Left and right are on each other's wire.
practice-level-leak = A small leak
practice-about-leak = A gauge loses a little more than it may. The hold takes its real time.
practice-level-odd-chamber = A chamber that is not what the file says
practice-about-odd-chamber = One chamber is of the other class, long stroke or standard, and has another limit.
# What the picture shows of one lamp, for those who hear the screen.
practice-lamp = { $number }: { $item }, { $look ->
    [steady] lit
    [flashing] flashing
    [dim] dim
    [dim-flashing] flashing dimly
   *[dark] dark
}
practice-needle = needle at { $psi } psi
practice-listen = Listen here
practice-hiss-here = Air hisses.
practice-quiet = No air is heard.
practice-as-done = Here this counts as done and right.
# One line a wheel end: what is read off its chamber.
practice-chamber = { CAPITAL($side) }: { $chamber }.
practice-rule = The rule shows { $stroke }.
practice-gauge = { CAPITAL($value) }: the gauge shows { $reading }.
practice-seconds = { $seconds ->
    [one] It takes one second.
   *[other] It takes { $seconds } seconds.
}
practice-none = Nothing can be practiced here: the vehicle has changed since.
practice-full = { $full } of { $due }
practice-cause = What was wrong
practice-what-came = What you answered
practice-found = Found
practice-called-otherwise = Found, but called by another name
practice-missed = Missed
practice-none-there = Reported, but nothing was wrong there
practice-kept-apart = This was practice. It is no record.
practice-again = Once more, with another fault
practice-other-level = Another level
practice-odd-chamber = { $end }: the chamber there is a { $chamber }, and the file says the other class
practice-why-odd-chamber = { $over ->
    [yes] A stroke of { $stroke } is over its limit of { $limit }, though a long-stroke chamber might have it. The two ends of the axle do not match either.
   *[no] A stroke of { $stroke } is within its limit of { $limit }, though over that of a standard chamber. The two ends of the axle do not match: that is the defect.
}
