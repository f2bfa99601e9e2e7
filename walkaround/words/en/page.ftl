# What any page may have to say about itself.

# What the browser calls the page: the screen, then the app.
page-title = { $screen } - { $app }
page-not-saved = Not saved. { $why }
# Said, not shown: it must be short.
page-not-saved-said = Not saved. Look at the phone.
page-log-says-why = The log of the computer that runs walkaround says why. Try it again.
page-failed = That did not work. What was answered so far is saved: try it again. The log of the computer that runs walkaround says why.
page-not-drawn = This screen could not be drawn.
page-not-drawn-why = Everything answered so far is saved. Go to the start and open the walk again; the cause is in the log of the computer that runs walkaround.
page-to-start = To the start
