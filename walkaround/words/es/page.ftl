# Lo que cualquier página puede tener que decir de sí misma.
# Cómo llama el navegador a la página: la pantalla, luego la aplicación.
page-title = { $screen } - { $app }

page-at-walk = { $vehicle }: recorrido
page-at-record = { $vehicle }: registro
page-at-cab = { $vehicle }: solo lo que hay que accionar
page-at-practice = { $vehicle }: práctica
page-at-start = { $vehicle }: empezar un recorrido
page-at-vehicle = { $vehicle }: vehículo
page-at-edit = { $vehicle }: cambiar el vehículo
page-at-board = { $vehicle }: historial
page-at-contacts = { $vehicle }: toma
page-not-saved = No se guardó. { $why }
# Se dice, no se muestra: debe ser corto.
page-not-saved-said = No se guardó. Mire el teléfono.
page-log-says-why = La bitácora de la computadora donde corre walkaround dice por qué. Intente otra vez.
page-failed = Eso no resultó. Lo respondido hasta ahora está guardado: intente otra vez. La bitácora de la computadora donde corre walkaround dice por qué.
page-not-drawn = No se pudo dibujar esta pantalla.
page-not-drawn-why = Todo lo respondido hasta ahora está guardado. Vaya al inicio y abra el recorrido otra vez; la causa está en la bitácora de la computadora donde corre walkaround.
page-to-start = Al inicio

# Lo muestra la página misma mientras no alcanza el servidor. "valves" se omite lejos de un vehículo;
# en "looking" la página cuenta desde el 0.
page-no-link-saved = Sin conexión. Las respuestas están guardadas.
page-no-link-valves = No toque ninguna válvula.
page-no-link-looking = Se busca el servidor cada 2 segundos, desde hace 0 s.
page-no-link-stay = Esta pantalla sigue sola. Quédese al alcance de la red, o vuelva adonde la había.
