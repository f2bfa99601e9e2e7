# Qué está mal con los recorridos en el disco, y cómo arreglarlo.

# De una a tres carpetas.
records-months = { $months }
records-many-months = { $count } carpetas en { $walks }, de { $first } a { $last },
records-months-shut = Aquí puede faltar algún recorrido o estar viejo: { $which } no se puede leer ({ $why }); { $count ->
    [one] dé permiso de lectura a este usuario.
   *[other] dé permiso de lectura de ellas a este usuario.
 }
records-months-failing = Aquí puede faltar algún recorrido o estar viejo: { $which } no se puede leer ({ $why }); revise el disco, o { $count ->
    [one] devuélvala de una copia de respaldo.
   *[other] devuélvalas de una copia de respaldo.
 }
# Antes de borrar un vehículo o cambiarle el nombre.
records-vehicles-untold = Ahora no se puede saber qué vehículos tienen recorridos. { $why }

walk-file-too-large = { $path } pasa de { $mb } MB, y ningún recorrido llega a eso ({ NUMBER($size, useGrouping: 0) } bytes); sáquelo de la carpeta.
walk-file-damaged = El archivo del recorrido { $walk } se dañó: sus primeras { $count } entradas concuerdan y se conservan; lo que seguía se perdió.
walk-file-unreadable = No se puede leer nada del recorrido { $walk }; su archivo queda como está, en { $path }.
walk-file-kept-as = { $damage } El archivo dañado se guarda como { $name }.
walk-file-of-another = { $path } contiene el recorrido { $walk }; dé al archivo el nombre de su recorrido, o sáquelo de la carpeta.
walk-file-not-in-step = El archivo del recorrido { $walk } tiene { $count } entradas, y estas no siguen ahí; pare walkaround e inícielo otra vez.
walk-too-long = Este recorrido tiene demasiados pasos, o sus textos son demasiado largos ({ NUMBER($size, useGrouping: 0) } bytes): acorte las listas, o revise luces y frenos por separado.
walk-is-there = Ya hay un recorrido { $walk }; empiece otra vez.
walk-is-full = El recorrido { $walk } ya tiene todo lo que cabe; termínelo y empiece otro.
walk-not-understood = El recorrido { $walk } tiene una entrada que esta versión no admite ({ $why }); ábralo con la versión que lo escribió.
walk-of-a-later-version = Una versión más nueva de walkaround escribió este recorrido; actualice esta.

# Antes del id de un recorrido.
problem-walk = recorrido
walk-file-practice = La revisión { $walk } no está donde debe: la práctica se guarda aparte de los registros.
trouble-no-such-walk = no existe tal recorrido
problem-list-the-walks = liste los recorridos
problem-no-walk-id = no es el id de un recorrido
problem-write-a-walk-id = escríbalo como lo muestra la lista de recorridos, como 20261125_081502_4f3a9c
# $photo: las primeras cifras por las que se conoce la foto.
photo-lost = La foto { $photo } del recorrido { $walk } no está o no es la que se tomó; devuélvala de una copia de respaldo o de un archivo de registros.
problem-photo-unreadable = no es una foto, o está dañada
problem-photo-too-large = pasa de { $mb } MB, o tiene más pixeles que los que da una cámara
problem-take-another-photo = tome otra
