# Un cable de luces revisado de punta a punta, y la toma trasera de un vehículo que remolca.

contacts-title = Cables y tomas
contacts-about = Antes de culpar a un remolque: ¿es el cable, o lo que sale de la unidad motriz?
contacts-cable = Revisar un cable
contacts-socket = Revisar la toma de una unidad motriz
contacts-before = Revisado antes
contacts-none-before = Aún no se ha revisado nada.
contacts-good = No se halló nada mal
# Quién y cuándo: "Ana, 2026-11-26 10:42".
contacts-checked = { $who }, { $time }
contacts-record = Anotarlo

cable-open = El contacto { ITEMS($contacts) } no llega a nada.
cable-weak = Contacto { ITEMS($contacts) }: hace mal contacto.
cable-swapped = Los contactos { $contacts } están cambiados.
cable-crossed = Cruzados, de una punta a la otra: contactos { $contacts }.
cable-shorted = Los contactos { $contacts } están en corto entre sí.
# De estos, a los que otro llega, no se dijo nada.
cable-tell-too = Toque también { $contacts }: ¿a qué llega?
cable-name = Nombre del cable
cable-needs-name = Póngale nombre al cable, para que el siguiente encuentre esta revisión.
cable-which-plug = Enchufes de las dos puntas
cable-caution = Las dos puntas desenchufadas. Nada de él toca un vehículo.
cable-how = Óhmetro de cada contacto de una punta al mismo de la otra, y a todos los demás. Mientras tanto doble el cable junto a los enchufes. ¿Unos 0 ohmios al suyo, nada a ningún otro?
cable-straight = Todos derechos
cable-tap-wrong = Toque cada contacto que no esté como debe.
cable-record = { $count ->
    [one] Anotar 1 contacto
   *[other] Anotar { $count } contactos
 }
# A qué llega un contacto, en su botón, de pocas letras: "3 a 5".
cable-contact-to = { $contact } a { ITEMS($far) }
cable-contact-open = { $contact } abierto
cable-contact-weak = { $contact } malo
cable-reaches = El contacto { $contact } llega
cable-only-its-own = Al suyo, { $contact }, solo
cable-nothing = A nada
cable-weakly = Al suyo, pero mal
# Contactos a los que llega; se pueden elegir varios.
cable-these = O a estos:
cable-advice = No lo use. Arréglelo o cámbielo antes de culpar a un remolque.

socket-title = Toma de { $name }
socket-caution = Calzas puestas, freno de estacionamiento puesto, nada enganchado. Llave en encendido, motor apagado. Neutral.
socket-how = Lámpara de prueba con un foco del tamaño de una luz de freno, del contacto al contacto de tierra. Un ayudante acciona los interruptores, o usted va y viene.
# $what es el número de un contacto, $use lo que la norma dice de él.
socket-left-alone = { $contact }, { $use }
socket-not-probed = Aquí nunca se prueban: { ITEMS($contacts) }.
socket-everything-off = Todo apagado
socket-switch-lamps = Luces
socket-switch-left-turn = Giro izquierdo
socket-switch-right-turn = Giro derecho
socket-switch-stop = Freno
socket-switch-backup = Reversa
socket-switch-blackout = Oscurecimiento
socket-switch-blackout-stop = Freno de oscurecimiento
# La línea entera: "Freno: solo el contacto 4".
socket-expected = { $count ->
    [0] { $switch }: ningún contacto con corriente
    [one] { $switch }: solo el contacto { ITEMS($contacts) }
   *[other] { $switch }: contactos { ITEMS($contacts) }, ningún otro
 }
socket-tap-live = Toque cada contacto una vez si prende fuerte, dos si prende débil.
socket-contact-bright = { $contact } fuerte
socket-contact-dim = { $contact } débil
socket-contact-dark = { $contact } apagado
socket-red = Rojo: manómetro en el acople. Perilla de suministro adentro: aire. Afuera: ¿nada?
socket-blue = Azul: manómetro en el acople. Perilla de suministro adentro, pedal pisado: aire. Pedal arriba: ¿nada?
socket-air-caution = Gafas puestas, cara lejos de los acoples. Nadie en los frenos.
socket-red-wrong = El aire del rojo no está como debe.
socket-blue-wrong = El aire del azul no está como debe.
socket-fault-missing = { ITEMS($switches) }: nada en { ITEMS($contacts) }.
socket-fault-low = { ITEMS($switches) }: débil en { ITEMS($contacts) }, le falta fuerza con carga.
socket-fault-swapped = { ITEMS($switches) } están cambiados.
socket-fault-joined = { ITEMS($switches) }: cualquiera alimenta los dos; están unidos.
socket-fault-back-fed = { ITEMS($switches) }: hay corriente también en { ITEMS($contacts) }, que tiene otro interruptor.
socket-fault-always-on = Con corriente y todo apagado: { ITEMS($contacts) }.
socket-advice = Arregle primero la unidad motriz; luego revise el remolque.
socket-left = { $count ->
    [one] Falta 1 interruptor
   *[other] Faltan { $count } interruptores
 }
