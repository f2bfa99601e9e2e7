# Lo que muestra y dice un segundo teléfono en la cabina mientras otro contesta. Quien está ahí no ve
# quién está en los frenos. Un encabezado son pocas palabras, sin punto.

cab-hands-off = Manos quietas
cab-called = Manos quietas hasta que lo llamen
cab-switch = Accione
cab-in-cab = En la cabina
cab-nothing = Nada que accionar
cab-touch-nothing = No toque interruptores, pedales ni válvulas.
cab-closed = El recorrido está cerrado
cab-left = El recorrido está en pausa
cab-left-until = Nada que accionar hasta que siga.
cab-answered = Todos los pasos tienen respuesta.
