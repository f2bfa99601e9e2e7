# Spoken answers. The phrases themselves are English in every language: the model knows no other.

speech-title = Spoken answers
speech-what = Hold the zone with the microphone, or a key that was learnt for it, and say a phrase. Nothing goes to the internet, and no sound is kept.
speech-not-installed = Not installed here: put in the extra recognition (see README) to answer by voice. Taps and keys do all the same.
speech-on = This phone listens while the zone is held
speech-off = Off: tap to answer by voice
speech-phrase = “{ $phrase }”: { $means }
speech-means-ok = OK
speech-means-defect = a defect; then which, and what
speech-means-not-checked = could not check
speech-means-not-fitted = not fitted; asks for a yes
speech-means-again = says the step again
speech-means-explain = explains, or shorter again
speech-means-back = back; within 10 seconds takes the last answer back
speech-means-note = opens a note, to be typed
speech-means-start = starts the count of an air hold; asks for a yes
speech-means-yes = yes, within 5 seconds of the question
speech-means-next = the next thing that can be wrong
speech-means-take = that is what is wrong
speech-means-on = on, when looking back
speech-numbers = A pressure or a stroke: digit by digit, “one one eight pounds”, “two point five”, “one and three over four inches”. It is read back, and counts after a yes.
speech-never = Never by voice: chocks, stand clear, air charged or let out, brakes on or off, breakaway, the meter, rechecks, closing a walk. Those take a tap.
speech-hold = Hold and talk
speech-listening = Listening…
speech-opening = Opening the microphone…
# The example is what is understood: English, digit by digit.
speech-say-number = Say “{ $example }”
speech-unclear = Not understood. Say it again.
speech-tap = Not understood twice. Please tap.
speech-not-done = Nothing changed.
# Questions are spoken without the phrase that answers them: an echo of it would answer.
speech-ask-not-fitted = Not fitted?
speech-ask-start = Start counting?
speech-ask-value = { CAPITAL($name) }, { $value }?
speech-asked = { $question } “{ $phrase }”
speech-refused = This page may not use the microphone: allow it in the browser. Taps work as before.
speech-not-secure = Spoken answers need https: start walkaround with --https. Taps work as before.
speech-no-microphone = This phone gives no microphone. Taps work as before.
speech-stopped = What listens has stopped, and starts anew when you talk. Taps work as before.
