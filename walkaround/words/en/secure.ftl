# What holds the front of a vehicle up, by its kind; said as the end of a sentence.

secure-front-semitrailer = landing gear down on firm ground
secure-front-full-trailer = drawbar on its support
secure-front-pole-trailer = pole on a stand, or coupled
secure-front-converter-dolly = drawbar on its support, or coupled
secure-front-truck = its own wheels
secure-front-bus = its own wheels
secure-front-truck-tractor = its own wheels
