# Causas probables de lo que se vio en las luces, y qué hacer después para distinguirlas. Corto, como
# un mecánico se lo dice a otro.

# Dónde comparten tierra las luces: "atrás a la izquierda".
cause-place-front-left = adelante a la izquierda
cause-place-front-right = adelante a la derecha
cause-place-front-centre = adelante al centro
cause-place-rear-left = atrás a la izquierda
cause-place-rear-right = atrás a la derecha
cause-place-rear-centre = atrás al centro
cause-place-left-side = en el lado izquierdo
cause-place-right-side = en el lado derecho
# Una tierra que nombra el archivo de un vehículo.
cause-place-named = en la tierra llamada { $name }

# Qué puede estar mal, como está en una lista.
cause-burnt-out = foco de { $lamp }, { $circuit }
cause-burnt-out-led = LED de { $lamp }, { $circuit }
cause-open-branch = cable de { $circuit } { $place }
cause-open-feed = alimentación de { $circuit } abierta
cause-poor-feed = mal contacto en la alimentación de { $circuit }
cause-shorted = corto al chasis en { $circuit }
cause-open-ground = tierra perdida { $place }
cause-poor-ground = mala tierra { $place }
cause-open-main-ground = tierra principal perdida
cause-corroded-plug = enchufe sulfatado por completo
cause-crossed = cables cruzados: { $one } y { $other }
cause-bridged = en corto entre sí: { $one } y { $other }
# Hace parpadear las luces de giro; en un camión, o en el camión o la caja que alimenta un remolque.
cause-flasher = intermitente

# Por qué se vería así.
cause-why-burnt-out = { CAPITAL($lamp) }: no alumbra con { $circuit }. Foco fundido, o flojo en su portafoco.
cause-why-burnt-out-led = { CAPITAL($lamp) }: no alumbra, o no del todo, con { $circuit }. El LED falló, o está desconectado.
cause-why-open-branch = { CAPITAL($circuit) }: solo no prende { $place }. Cable roto o empalme abierto en el camino.
cause-why-open-feed = { CAPITAL($circuit) }: no prende en ningún lado. Cable roto o contacto abierto antes del primer empalme.
cause-why-poor-feed = { CAPITAL($circuit) }: le falta corriente en todas partes. Contacto o empalme sulfatado en la alimentación.
cause-why-shorted = { CAPITAL($circuit) }: el circuito se dispara, porque su cable toca el chasis. Déjelo apagado hasta hallar el corto.
cause-why-open-ground = Tierra perdida { $place }: la corriente regresa por otras luces, que pueden brillar poco.
cause-why-poor-ground = Mala tierra { $place }: mientras más se prende ahí, menos alumbra.
cause-why-open-main-ground = Nada prende en ningún circuito: se perdió la tierra principal.
cause-why-corroded-plug = Enchufe sulfatado por completo: todo alumbra poco o nada, y peor lo que más consume.
cause-why-crossed = { CAPITAL($one) } y { $other }: cables cruzados; cada circuito prende las luces del otro.
cause-why-bridged = { CAPITAL($one) } y { $other }: en corto entre sí; cualquiera de los dos circuitos prende ambos.
# A los intermitentes que se calientan con la corriente de las luces, o la cuentan, los LED los confunden.
cause-why-flasher = Todas las luces de giro prenden, pero a otro ritmo: el intermitente falla, o no es para estas luces, como con LED.

# Qué hacer después, y qué se encuentra. Un circuito que se disparó nunca se prende para esto.
trial-look = Prenda solo { $circuit }: mire { $lamp }.
trial-breaker = Mire el disyuntor o fusible de { $circuit }.
trial-volts = Prenda { $circuit }: voltios del contacto de alimentación de { $lamp } al chasis limpio. No pinche cables.
trial-ground = Prenda { $circuit }: voltios de la tierra de las luces { $place } al chasis limpio.
trial-clamp = Prenda { $circuit }: amperímetro de gancho en su cable, antes del primer empalme.
trial-cable = Ponga un cable que se sepa bueno y mire otra vez.
trial-wiggle-feed = Luces prendidas: mueva enchufe y cable, o los cables del interruptor.
trial-wiggle-at = Luces prendidas: mueva cables, empalmes y tierra { $place }.
trial-swap = Ponga un foco que se sepa bueno en { $lamp } y mire otra vez.
trial-swap-led = Conecte un LED que se sepa bueno en lugar de { $lamp } y mire otra vez.
trial-flasher = Ponga un intermitente que se sepa bueno, o alimente las luces de giro desde otro camión u otra caja, y mire otra vez.
trial-ohms = Circuito de { $circuit } apagado y desenchufado, sus luces desconectadas o sin focos: ohmios de su cable al chasis limpio.

outcome-look-lit = prende
outcome-look-dim = alumbra poco
outcome-look-dark = no prende
outcome-breaker-tripped = disparado o fundido
outcome-breaker-in = no disparado
outcome-volts-full = unos { $volts } V
outcome-volts-low = claramente menos de { $volts } V
outcome-volts-none = sin voltaje
outcome-ground-good = menos de { $most } V
outcome-ground-bad = más de { $most } V
outcome-clamp-right = unos { $amps } A
outcome-clamp-low = claramente menos de { $amps } A
outcome-clamp-high = claramente más de { $amps } A
outcome-clamp-none = sin corriente
outcome-cable-cured = ahora está como debe
outcome-cable-same = sin cambio
outcome-wiggle-changes = va y viene
outcome-wiggle-same = sin cambio
outcome-swap-cured = ahora prende
outcome-swap-same = sin cambio
outcome-flasher-cured = ahora parpadean bien
outcome-flasher-same = sin cambio
outcome-ohms-near-zero = casi cero
outcome-ohms-open = sin continuidad

# Una cosa que hacer, y qué resultado significa que esta es la causa.
cause-next = { $trial } { CAPITAL($outcome) } significa: { $cause }.
cause-next-none = Ninguna medición dice más. Arregle esto y mire otra vez: { $cause }.

# La pantalla de las causas probables.
causes-title = Causas probables
causes-likeliest = La más probable
# En un registro: lo que puede estar mal, y lo que se probó.
causes-of-lamps = Causas probables: luces
causes-of-air = Causas probables: aire
causes-none = Ninguna luz está abierta como defecto.
causes-unexplained = Ninguna falla sola explica lo que se vio. Mire otra vez, o hay más de una.
causes-share = { $percent } % probable
# The share is of all of them together.
causes-share-alike = { $percent } % probable, esto o lo que se ve igual: { $faults }
causes-next = Lo que sigue
causes-safe = Nadie debajo con los frenos liberados. No pinche cables, no toque contactos de ABS ni de datos, no alimente nada que se haya disparado.
causes-nothing-next = Ninguna medición dice más. Arregle la más probable y revísela otra vez.
# Después de la última mirada a las luces, mientras algo esté mal ahí.
causes-more-title = ¿Mirar una vez más?
causes-more-why = Distingue las causas probables. Se puede dejar.
causes-more-skip = Seguir sin mirar
causes-more-said = Mire una vez más, si quiere. { $look }
# Lo que se probó; cada cosa se puede retirar.
causes-tried = Hecho hasta ahora
causes-take-back = Retirar
# Lo que puede engañar a los ojos.
causes-erring = ¿No se ve bien?
causes-sun = Sol
causes-rain = Lluvia
causes-dirty-lenses = Micas sucias
