# What any page may have to say about itself.

# What the browser calls the page: the screen, then the app.
page-title = { $screen } - { $app }
# The screen in it, where that is about one vehicle.
page-at-walk = { $vehicle }: walk
page-at-record = { $vehicle }: record
page-at-cab = { $vehicle }: only what to switch
page-at-practice = { $vehicle }: practice
page-at-start = { $vehicle }: start a walk
page-at-vehicle = { $vehicle }: vehicle
page-at-edit = { $vehicle }: change the vehicle
page-at-board = { $vehicle }: history
page-at-contacts = { $vehicle }: socket
page-not-saved = Not saved. { $why }
# Said, not shown: it must be short.
page-not-saved-said = Not saved. Look at the phone.
page-log-says-why = The log of the computer that runs walkaround says why. Try it again.
page-failed = That did not work. What was answered so far is saved: try it again. The log of the computer that runs walkaround says why.
page-not-drawn = This screen could not be drawn.
page-not-drawn-why = Everything answered so far is saved. Go to the start and open the walk again; the cause is in the log of the computer that runs walkaround.
page-to-start = To the start

# Shown by the page itself while the server cannot be reached. "valves" is left out away from a
# vehicle; in "looking" the page counts the 0 up.
page-no-link-saved = No connection. Answers are saved.
page-no-link-valves = Touch no valve.
page-no-link-looking = Looking for the server every 2 seconds, for 0 s now.
page-no-link-stay = This screen goes on by itself. Stay in reach of the network, or go back to where it was.
