# What keeps a vehicle from rolling or tipping besides its chocks, a sentence without its full stop.

secure-held-semitrailer = Landing gear or tongue jack down, or tow unit coupled and parked
secure-held-full-trailer = Drawbar on its support, or tow unit coupled and parked
secure-held-pole-trailer = Pole on a stand, or tow unit coupled and parked
secure-held-converter-dolly = Drawbar on its support, or tow unit coupled and parked
secure-held-coupled = Tow unit's parking brake set, out of gear, key in your pocket, chocked too
secure-held-power-unit = Parking brake set, out of gear, engine off, key in your pocket
