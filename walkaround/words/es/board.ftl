# El tablero de un taller: lo que está abierto para el próximo turno, en pantalla y en una página.

board-title = Tablero
board-tagged = Fuera de servicio: con etiqueta
board-none-tagged = No hay etiqueta puesta que no se haya quitado.
board-open = Defectos abiertos, primero los más viejos
board-none-open = No hay defectos abiertos.
board-going = Recorridos en curso
board-none-going = No hay recorridos en curso.
board-made = Hecho
board-vehicles = Vehículos con defectos abiertos
board-tags = Vehículos con etiqueta
board-under-way = Recorridos en curso
board-tag-since = Etiqueta puesta en el recorrido del
# Al pie de cada hoja.
board-foot = Tablero, { $day }
board-open-for = Abierto hace
board-done-by = Hecho por
board-age = { $days ->
    [0] hoy
    [one] 1 día
   *[other] { $days } días
 }
board-print = Imprimir (PDF)
board-older = { $count ->
    [one] 1 vehículo más
   *[other] { $count } vehículos más
 }
board-tag = Con etiqueta de fuera de servicio, en el recorrido del { $day }
board-row = { $step } ({ $age })
board-by = Por { $who }

history-title = Historial
history-reading = Leyendo los recorridos …
history-latest = De los últimos { $count } recorridos.
history-values = Pruebas de fuga y carreras
history-defects = Defectos
history-no-defect = No se halló ningún defecto.
# Lo que muestra una gráfica, para quienes lo oyen.
history-told = Uno tras otro: { ITEMS($values) }. Límite: { $limit }.
history-no-limit = no se conoce
history-limit = A rayas: límite { $limit }
history-of-gauge = { $step }: { $gauge }
# Con qué preparación se tomaron los valores de una gráfica.
history-air-shop = Pérdida por minuto con el aire del taller, manómetro leído a { $step }
history-air-coupled = Pérdida por minuto acoplado, manómetro leído a { $step }
history-stroke = Carrera de la varilla
history-line = La línea se ajusta a estos recorridos; está en lo gris con 95 %. No dice nada de días posteriores.
history-found = { $day }: hallado por { $who }
history-back = { $day }: volvió, hallado por { $who }
history-repaired = { $day }: reparado, dicho por { $who }
history-ok = { $day }: bien, por { $who }
history-withdrawn = { $day }: retirado como no defecto por { $who }

# Cuánto se guardan los recorridos, y quitar los que no hace falta guardar.
keeping-title = Cuánto se guardan los recorridos
keeping-never = Nada se borra solo. Un recorrido de un vehículo con un defecto abierto, o en curso, nunca se borra.
keeping-vehicles = Vehículos que se fueron
keeping-no-vehicle = Todo vehículo con recorridos está aquí. Borre un vehículo que se fue; entonces aparece aquí.
keeping-removed = Ya no está entre los vehículos.
keeping-left = Se fue el { $day }. Seis meses después se pueden borrar sus recorridos de más de un año.
keeping-gone = Salió hoy de nuestro control
keeping-not-gone = No se ha ido
keeping-may-go = Recorridos que no hace falta guardar
keeping-none = Ninguno.
keeping-walk = { $day }, { $photos ->
    [0] sin fotos
    [one] 1 foto
   *[other] { $photos } fotos
 }
keeping-delete = { $count ->
    [one] Borrar 1 recorrido
   *[other] Borrar { $count } recorridos
 }
keeping-question = ¿Borrar para siempre?
keeping-means = { $count ->
    [one] Se borra 1 recorrido para siempre
   *[other] Se borran { $count } recorridos para siempre
 }, { $photos ->
    [0] sin fotos
    [one] con 1 foto
   *[other] con { $photos } fotos
 }. Solo vuelven de un archivo que se compartió antes.
keeping-keep = Guardarlos
