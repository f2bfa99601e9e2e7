# What a second phone in the cab shows and says while another one answers. Whoever sits there does
# not see who is at the brakes. A head is a few words, without a full stop.

cab-hands-off = Hands off
cab-called = Hands off until called
cab-switch = Switch
cab-in-cab = In the cab
cab-nothing = Nothing to switch
cab-touch-nothing = Touch no switch, no pedal and no valve.
cab-closed = The walk is closed
cab-left = The walk is left for now
cab-left-until = Nothing to switch until it goes on.
cab-answered = Every step has an answer.
