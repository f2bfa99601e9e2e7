# What may keep a computer from speaking.

# $why is one of those below: a clause, without a full stop.
voice-none = No voice: { $why }; the words are on the screen.
voice-no-answer = the speech engine did not answer
voice-stopped = the speech engine stopped
voice-bad-answer = the speech engine failed (its answer is no answer)
# $reason is what the engine says of it.
voice-failed = the speech engine failed ({ $reason })
voice-closed = the speech engine is closed
voice-no-start = the speech engine did not start ({ $reason })
voice-no-sound = the speech engine wrote no sound
voice-unwritten = { $folder } cannot be written ({ $reason })
voice-busy = what was queued before a prompt took too long
