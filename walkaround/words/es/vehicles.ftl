# Las pantallas de vehículos: su lista, uno de ellos, su formulario, y un archivo que se recibe.

go-back = Atrás
close-sheet = Cerrar
# Una opción que está elegida, para lectores de pantalla.
chip-chosen = { $name }, elegido

defects-open = { $count ->
    [0] ningún defecto abierto
    [one] 1 defecto abierto
   *[other] { $count } defectos abiertos
 }
walk-closed-with = cerrado, { defects-open }
walk-going-with = { $answered } de { $steps } respondidos, { defects-open }

vehicles-title = Vehículos
vehicle-new = Vehículo nuevo
vehicle-most-like-it = ¿Cuál se le parece más?
vehicle-can-be-changed = Después se puede cambiar todo.
vehicle-copy-of = Copia de { $name }
vehicle-edit-named = Cambiar { $name }
vehicle-lamps-and-wiring = Luces y cableado
vehicle-walks = Recorridos
vehicle-no-walk = Aún no tiene recorridos.
vehicle-earlier-walks = { $count } anteriores
vehicle-copy = Copiar
vehicle-export = Exportar
vehicle-edit = Cambiar
vehicle-delete = Borrar
vehicle-is-shipped = Vino con la aplicación: cópielo y cambie la copia.
vehicle-delete-question = ¿Borrar { $name }?
vehicle-delete-means = { $walks ->
    [0] { $name } ya no se ofrecerá.
    [one] { $name } ya no se ofrecerá. Su recorrido queda en los registros.
   *[other] { $name } ya no se ofrecerá. Sus { $walks } recorridos quedan en los registros.
 }
vehicle-file-is-kept = Su archivo se conserva en la carpeta de vehículos quitados.
vehicle-keep-it = Dejarlo
vehicle-delete-it = Borrarlo

form-done = Listo
form-save = Guardar
form-not-saved = Lo que cambió no se ha guardado.
form-leave-title = ¿Salir?
form-stay = Quedarse aquí
form-leave = Salir sin guardar
form-put-right = Para guardar, corrija: { ITEMS($fields) }.
form-put-right-above = Para guardar, corrija: vea arriba.
form-add-another = Agregar otro
form-tap-to-add = Sin dato: toque para agregar
form-connector = { $volts } V, { $standard }
# Cómo llaman los lectores de pantalla a una opción o una marca: su campo y ella misma.
form-choice = { $field }: { $choice }
form-tick = { $field } { $axle }
form-all = Todos
form-all-axles = Todos los ejes
form-axle = Eje { $number }
form-on-axle = En el eje
form-tap-to-take-away = Toque uno para quitarlo.
form-take-away = Quitar: { $what }
form-take-away-volume = Quitar uno de { $volume }
form-add-volume = Agregar uno de { $volume }
form-no-volume = Aún sin dato.
form-add-as-marked = Agregar uno, como está marcado en él
form-in-metres = Metros
form-in-feet = Pies
form-in-kilograms = Kilogramos
form-in-pounds = Libras
form-step-more = { $size } más
form-step-less = { $size } menos
form-year = Año
form-month = Mes
form-years-later = { $count ->
    [one] 1 año después
   *[other] { $count } años después
 }
form-years-earlier = { $count ->
    [one] 1 año antes
   *[other] { $count } años antes
 }
form-damage-what = Qué
form-damage-where = { $what }, ¿dónde?
# Una frase de daño como se guarda: "Abollado: atrás a la izquierda".
form-damage = { $what }: { $where }
form-add-it = Agregarlo

import-vehicle-file = Recibir un archivo de vehículo
import-here-already = { $name } ya está aquí, igual que en este archivo.
import-refused = No se recibió: { $count ->
    [one] hay 1 cosa mal
   *[other] hay { $count } cosas mal
 } en { $name }
import-twin = Ya hay un { $name }.
import-keep-both-question = ¿Dejar los dos? El recibido lleva un nombre propio.
import-keep-both = Dejar los dos
import-leave-it = No recibirlo
import-kilobytes = { $kb } kB
import-megabytes = { NUMBER($mb, minimumFractionDigits: 1, maximumFractionDigits: 1) } MB
problem-file-too-large = tiene { $size }, pero un archivo de vehículo tiene como máximo { $most } kB
problem-did-not-come = no llegó por la red
problem-choose-it-again = elíjalo otra vez
# Hallar un vehículo.
vehicles-search = Buscar: nombre, placa o VIN
vehicles-none-found = Ningún vehículo se llama «{ $typed }».
vehicles-more = { $count ->
    [one] 1 vehículo más
   *[other] { $count } vehículos más
 }
# Vehículos que vienen con la aplicación.
vehicles-examples = Ejemplos
vehicles-hide-examples = Ocultar
vehicles-show-examples = Mostrar
# Un código para pegar en un vehículo.
vehicle-code = Código
vehicle-code-how = Péguelo en el vehículo: un teléfono emparejado abre con él este vehículo.
