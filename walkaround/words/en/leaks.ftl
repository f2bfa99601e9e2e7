# Where air is lost: which part leaks, and what to do to find out. Short, as a mechanic says it to
# another. Red is the supply line of a trailer, blue its service line.

# What may leak, as it stands in a list. $end: "axle 1, left end".
leaks-part-gladhand-seal-red = seal of the red gladhand
leaks-part-gladhand-seal-blue = seal of the blue gladhand
leaks-part-hose-red = red hose
leaks-part-hose-blue = blue hose
leaks-part-hose-parking = hose of the parking brakes
leaks-part-hose-cylinder = hose of the air-hydraulic cylinder
leaks-part-test-hose-red = your own red hose or gauge
leaks-part-test-hose-blue = your own blue hose or gauge
leaks-part-rear-cock-red = rear shut-off of red
leaks-part-rear-cock-blue = rear shut-off of blue
leaks-part-spring-brake-valve = spring brake valve
leaks-part-spring-diaphragm = spring brake diaphragm, { $end }
leaks-part-service-diaphragm = service diaphragm, { $end }
leaks-part-chamber-hose = chamber hose, { $end }
leaks-part-drain-tank = tank or its drain
leaks-part-drain-primary = primary tank or its drain
leaks-part-drain-secondary = secondary tank or its drain
leaks-part-drain-supply = supply tank or its drain
leaks-part-relay-valve = relay valve
leaks-part-emergency-relay = emergency relay valve
leaks-part-check-valve-tank = check valve of the tank
leaks-part-check-valve-primary = check valve of the primary tank
leaks-part-check-valve-secondary = check valve of the secondary tank
leaks-part-tow-unit = the tow unit
leaks-part-trailer = what is towed
leaks-part-governor = governor
leaks-part-dryer = air dryer or unloader
leaks-part-foot-valve = foot valve
leaks-part-parking-knob = valve of the parking knob
leaks-part-supply-knob = valve of the supply knob
leaks-part-protection-valve = tractor protection valve
leaks-part-cylinder = air-hydraulic cylinder

# Why it would leak so.
leaks-why-gladhand-seal-red = Seal of the red gladhand. Red has air all the time: it leaks brakes released and on.
leaks-why-gladhand-seal-blue = Seal of the blue gladhand. Blue has air only with the brakes on, and leaks only then.
leaks-why-hose-red = Red hose or a fitting of it. Red has air all the time: it leaks brakes released and on.
leaks-why-hose-blue = Blue hose or a fitting of it. Blue has air only with the brakes on, and leaks only then.
leaks-why-hose-parking = Hose of the parking brakes. It has air only while they are released.
leaks-why-hose-cylinder = Hose of the air-hydraulic cylinder. It has air only with the pedal down.
leaks-why-test-hose-red = Your own red hose, gauge or valve: the trailer may be sound.
leaks-why-test-hose-blue = Your own blue hose, gauge or valve: the trailer may be sound.
leaks-why-rear-cock-red = Shut-off or plug at the rear, red: it lets air out behind.
leaks-why-rear-cock-blue = Shut-off or plug at the rear, blue: it lets air out behind with the brakes on.
leaks-why-spring-brake-valve = Spring brake valve: it lets red out at its exhaust, brakes released and on.
leaks-why-spring-diaphragm = Spring brake diaphragm, { $end }. It has air only while the parking brakes are released. Never open that chamber: change it whole.
leaks-why-service-diaphragm = Service diaphragm, { $end }. It has air only with the brakes on; the tank feeds it.
leaks-why-chamber-hose = Hose at the chamber, { $end }. It has air only with the brakes on; the tank feeds it.
leaks-why-drain-tank = Tank, its drain or a fitting. The tank has air all the time, so red falls slowly in both holds.
leaks-why-drain-primary = Primary tank, its drain or a fitting: primary falls, brakes released and on.
leaks-why-drain-secondary = Secondary tank, its drain or a fitting: secondary falls, brakes released and on.
leaks-why-drain-supply = Supply tank, its drain or a fitting. Check valves hold the other tanks: no needle falls.
leaks-why-relay-valve = Relay valve: a seat or seal in it leaks, and the air comes out of its exhaust.
leaks-why-emergency-relay = Emergency relay valve: a seat or seal in it leaks, and the air comes out of its exhaust.
leaks-why-check-valve-tank = Check valve of the tank: air comes back out of red once red is empty.
leaks-why-check-valve-primary = Check valve of the primary tank: its air goes back to the compressor.
leaks-why-check-valve-secondary = Check valve of the secondary tank: its air goes back to the compressor.
leaks-why-tow-unit = The tow unit itself: the trailer may be sound.
leaks-why-trailer = What is towed: it has air while the supply knob is in.
leaks-why-governor = Governor: it lets out air of the supply tank. No needle falls.
leaks-why-dryer = Purge valve of the dryer, or the unloader: it lets out air of the supply side. No needle falls.
leaks-why-foot-valve = Foot valve: a seat in it leaks, and the air comes out of its exhaust.
leaks-why-parking-knob = Valve of the parking knob: it leaks in the dash, and both needles fall.
leaks-why-supply-knob = Valve of the supply knob: it leaks in the dash or into red, and both needles fall.
leaks-why-protection-valve = Tractor protection valve: with the supply knob out, air comes out of blue.
leaks-why-cylinder = Air-hydraulic cylinder: its piston seal leaks with the pedal down.

# Where something is heard, as it stands on a button.
leaks-place-red-gladhand = red gladhand
leaks-place-blue-gladhand = blue gladhand
leaks-place-red-hose = red hose
leaks-place-blue-hose = blue hose
leaks-place-test-hose = own hose
leaks-place-rear-gladhands = rear gladhands
leaks-place-relay-exhaust = relay valve exhaust
leaks-place-spring-valve = spring brake valve
leaks-place-tank = tank
leaks-place-chamber = chamber
leaks-place-hose-end = hose at a chamber
leaks-place-tow-unit = tow unit
leaks-place-trailer = what is towed
leaks-place-tank-primary = primary tank
leaks-place-tank-secondary = secondary tank
leaks-place-tank-supply = supply tank
leaks-place-governor = governor
leaks-place-dryer = air dryer, compressor
leaks-place-foot-valve = foot valve
leaks-place-dash = dash
leaks-place-park-hose = parking brake hose
leaks-place-cylinder = air-hydraulic cylinder
leaks-place-cylinder-hose = hose at the cylinder
leaks-place-nothing = nothing
# At one wheel end: "chamber, axle 1, left end".
leaks-place-chamber-at = chamber, { $end }
leaks-place-hose-at = hose at the chamber, { $end }

# What to do next. Nobody reaches in at the wheels for it, nothing is opened under pressure.
leaks-listen-released = Brakes released. Walk round outside the wheels and listen.
leaks-listen-applied = Everybody out, no spring brake set. Brakes on: walk round outside the wheels and listen.
leaks-listen-dumped-shop = Everybody clear. Dump red at your dump valve, brakes set: walk round outside and listen.
leaks-listen-dumped-coupled = Everybody clear. Supply knob out, brakes set: walk round outside and listen.
leaks-listen-dumped-own = Everybody clear. Parking brake set, any supply knob out: walk round outside and listen.
leaks-soap-released = Brakes released. From outside the wheels, spray soap on: { $place }.
leaks-soap-applied = Everybody out, no spring brake set. Brakes on. From outside the wheels, spray soap on: { $place }.
leaks-plug-red = Everybody clear. Source shut, red dumped: red off the trailer, a sealing plug latched on your own hose. Stand aside, charge it, shut the source and watch the needle.
leaks-plug-blue = Everybody clear. Source shut, blue bled: blue off the trailer, a sealing plug latched on your own hose. Stand aside, charge it, shut the source and watch the needle.
leaks-plug-rear = Everybody clear. Air shut, red and blue empty: a sealing plug latched on each rear gladhand. Stand aside, charge and hold once more.
leaks-hold-coupled = Everybody clear. Supply knob out: hold once more, tow unit alone.
leaks-hold-own = Everybody clear. Parking brake set, any supply knob out: hold once more.

leaks-outcome-falls = needle falls
leaks-outcome-stands = needle stands
leaks-outcome-bubbles = bubbles
leaks-outcome-none = no bubbles

# The screen of what air holds lost.
leaks-title = Where does it leak?
leaks-likeliest = Air: most likely
leaks-hear-released = Released: where do you hear it?
leaks-hear-applied = Brakes on: where do you hear it?
leaks-which-chamber = Which chamber?
leaks-which-hose = Which hose?
leaks-safe = Chocks in. Stay outside the wheels, nobody underneath. Hands off rods and slacks. Open no line under pressure.
leaks-none = No air hold is over its limit.
