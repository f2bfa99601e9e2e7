# Recorridos que pasan de un taller a otro en un archivo.

# En lugar de $shop donde un taller no se puso nombre.
exchange-no-name = un taller sin nombre
exchange-signed = Firmado por { $shop }, clave { $key }.
exchange-signed-unknown = Firmado por { $shop }, cuya clave no se conoce aquí: { $key }. Compárela con la de ellos.
exchange-not-signed = Sin firma.
exchange-changed-since = Cambiado desde que { $shop }, clave { $key }, lo firmó.
exchange-other-key = Dice que lo firma { $shop }, pero esta no es la clave que se conserva de { $shop }: { $key }.
exchange-no-record-file = no es un archivo de registros, o está dañado
exchange-later-version = lo escribió una versión más nueva de walkaround
exchange-bytes-changed = no está como se escribió: se cambiaron o perdieron bytes en el camino
exchange-mend = tráigalo otra vez de donde se compartió
exchange-entry-unreadable = su parte { $name } no se puede leer
exchange-line-too-long = contiene un recorrido más largo que cualquier recorrido
exchange-too-many-entries = tiene más de { $most } partes
exchange-twice = dos de sus partes tienen el mismo nombre
exchange-other-entries = tiene partes que ningún archivo de registros tiene
exchange-entry-too-large = su parte { $name } es más grande que cualquier parte así
exchange-entries-overlap = sus partes se enciman
exchange-line-unreadable = El recorrido número { $place } del archivo no se puede leer.
exchange-chain-cut = Recorrido { $walk }: la entrada { $number } de { $count } se cambió, o se quitó una anterior.
exchange-entry-of-later-version = Recorrido { $walk }: la entrada { $number } de { $count } es de una versión más nueva; actualice walkaround.
exchange-walk-renamed = El recorrido { $walk } es el recorrido { $other } según su primera entrada.
exchange-out-of-order = El recorrido { $walk } está dos veces, o fuera de su lugar.
exchange-photo-swapped = Recorrido { $walk }: la foto { $photo } falta o no es la que se tomó.
exchange-photo-of-none = La foto { $photo } no se tomó en ninguno de los recorridos.
exchange-signature-unreadable = Recorrido { $walk }: una firma no se puede leer.
exchange-signature-forged = Recorrido { $walk }: la firma de { $shop }, clave { $key }, es falsa.
exchange-walk-cut = El recorrido { $walk } se cortó: { $shop }, clave { $key }, firmó { $signed } entradas, aquí hay { $count }.
exchange-too-many-photos = estos recorridos tienen más de { $most } fotos
exchange-share-fewer = comparta menos recorridos a la vez
shop-key-damaged = { $path } está dañado, la clave con que firma este taller; devuélvalo de una copia de respaldo, o quítelo para que se haga una nueva.
known-shops-damaged = { $path } está dañado, las claves de otros talleres; devuélvalo de una copia de respaldo, o quítelo.
# Qué fue de los recorridos de un archivo de registros.
exchange-merged = { $added ->
    [one] 1 recorrido agregado
   *[other] { $added } recorridos agregados
 }, { $same } ya estaban aquí, { $conflicts ->
    [one] 1 siguió distinto
   *[other] { $conflicts } siguieron distinto
 }, { $refused } rechazados.
exchange-conflict = El recorrido { $walk } siguió distinto aquí y allá: se conservan las dos copias.
# Las pantallas.
sharing-title = Compartir, recibir
sharing-what = Los recorridos van a otro taller en un archivo y allá se juntan. Nada de lo que ahí está se pierde.
sharing-all = Compartir todos los recorridos
sharing-bring-in = Recibir un archivo
sharing-table-walks-csv = Tabla de todos los recorridos (CSV)
sharing-table-facts-csv = Todo lo que dicen, una fila por dato (CSV)
sharing-table-facts-ndjson = Todo lo que dicen, para programas (NDJSON)
sharing-coming = { $name } viene en camino.
sharing-take-in = Recibir
sharing-leave-it = Dejarlo
sharing-not-taken = No se puede recibir nada de él: pídalo otra vez donde se compartió.
sharing-more-faults = { $count ->
    [one] y 1 más
   *[other] y { $count } más
 }
sharing-did-not-come = { $name } no llegó, o pasa de 500 MB; elíjalo otra vez.
sharing-this-shop = Este taller
sharing-name = Nombre de este taller
sharing-key = Clave de este taller: { $key }
sharing-known = Talleres conocidos aquí
sharing-known-shop = { $shop }: { $key }
sharing-conflict = { $vehicle }, { $began }: este recorrido siguió distinto aquí y allá. Se conservan las dos copias.
sharing-compare = La clave de { $shop } no se conoce aquí: { $key }. Compárela con la de ellos, por teléfono o en papel, antes de conservarla.
sharing-keep-key = Conservar esta clave de { $shop }
record-share = Compartir
# En la lista de registros, debajo del nombre de un recorrido.
record-other-copy = Una de varias copias que siguieron distinto
record-copies = Este recorrido siguió distinto en dos lugares. { $count ->
    [one] Hay otra copia de él.
   *[other] Hay otras { $count } copias de él.
 }
# $until: cuándo se dio la última respuesta de esta copia.
copy-button = Hasta { $until }: { $answered } de { $steps } respondidos, { defects-open }
