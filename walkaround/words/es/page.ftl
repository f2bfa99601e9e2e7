# Lo que cualquier página puede tener que decir de sí misma.
# Cómo llama el navegador a la página: la pantalla, luego la aplicación.
page-title = { $screen } - { $app }

page-not-saved = No se guardó. { $why }
# Se dice, no se muestra: debe ser corto.
page-not-saved-said = No se guardó. Mire el teléfono.
page-log-says-why = La bitácora de la computadora donde corre walkaround dice por qué. Intente otra vez.
page-failed = Eso no resultó. Lo respondido hasta ahora está guardado: intente otra vez. La bitácora de la computadora donde corre walkaround dice por qué.
page-not-drawn = No se pudo dibujar esta pantalla.
page-not-drawn-why = Todo lo respondido hasta ahora está guardado. Vaya al inicio y abra el recorrido otra vez; la causa está en la bitácora de la computadora donde corre walkaround.
page-to-start = Al inicio
