# Spoken answers. The phrases themselves are English in every language: the model knows no other.

ears-title = Spoken answers
ears-what = Hold the zone with the microphone, or a key that was learnt for it, and say a phrase. Nothing goes to the internet, and no sound is kept.
ears-not-installed = Not installed here: put in the extra ears (see README) to answer by voice. Taps and keys do all the same.
ears-on = This phone listens while the zone is held
ears-off = Off: tap to answer by voice
ears-phrase = “{ $phrase }”: { $means }
ears-means-ok = OK
ears-means-defect = a defect; then which, and what
ears-means-not-checked = could not check
ears-means-not-fitted = not fitted; asks for a yes
ears-means-again = says the step again
ears-means-explain = explains, or shorter again
ears-means-back = back; within 10 seconds takes the last answer back
ears-means-note = opens a note, to be typed
ears-means-start = starts the count of an air hold; asks for a yes
ears-means-yes = yes, within 5 seconds of the question
ears-means-next = the next thing that can be wrong
ears-means-take = that is what is wrong
ears-means-on = on, when looking back
ears-numbers = A pressure or a stroke: digit by digit, “one one eight pounds”, “two point five”, “one and three over four inches”. It is read back, and counts after a yes.
ears-never = Never by voice: chocks, stand clear, air charged or let out, brakes on or off, breakaway, the meter, rechecks, closing a walk. Those take a tap.
ears-hold = Hold and talk
ears-listening = Listening…
ears-opening = Opening the microphone…
# The example is what is understood: English, digit by digit.
ears-say-number = Say “{ $example }”
ears-unclear = Not understood. Say it again.
ears-tap = Not understood twice. Please tap.
ears-not-done = Nothing changed.
# Questions are spoken without the phrase that answers them: an echo of it would answer.
ears-ask-not-fitted = Not fitted?
ears-ask-start = Start counting?
ears-ask-value = { CAPITAL($name) }, { $value }?
ears-asked = { $question } “{ $phrase }”
ears-refused = This page may not use the microphone: allow it in the browser. Taps work as before.
ears-not-secure = Spoken answers need https: start walkaround with --https. Taps work as before.
ears-no-microphone = This phone gives no microphone. Taps work as before.
ears-stopped = What listens has stopped, and starts anew when you talk. Taps work as before.
