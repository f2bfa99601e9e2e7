# Lo que puede estar mal en las lecturas de una prueba de fuga, en su registro, y en un número que se
# da a las funciones que las juzgan: qué está mal, y (`-mend`) cómo corregirlo. Los dos van en
# `problem`: ninguno lleva mayúscula ni punto.

readings = lecturas
reading-number = lecturas, lectura { $number }
readings-few = solo hay { $count }
readings-few-mend = tome al menos { $least }
readings-many = hay { $count }
readings-many-mend = deje solo { $most }
reading-no-time = { $seconds } s no es un tiempo de prueba
reading-no-time-mend = sí lo es de 0 a { $most } s
reading-no-pressure = { $pressure } { $unit } no es una presión de manómetro
reading-no-pressure-mend = sí lo es de 0 a { $most } { $unit }
reading-not-later = su tiempo no aumenta
reading-not-later-mend = ponga las lecturas en orden de tiempo
crossing-twice = es la raya del toque anterior
crossing-twice-mend = toque cada raya una vez
crossing-no-mark = { $psi } psi no es una raya
crossing-no-mark-mend = las rayas van cada { $step } psi

argument = argumento
argument-bad = { $value } no puede ser
argument-mend = dé de { $least } a { $most }
gauge-too-coarse = el paso es { $step } { $unit }, que ningún manómetro de frenos tiene; dé como máximo { $most } { $unit }
watched-mend = dé un tiempo posterior al último toque, como máximo { $most } s

line-in-file = { $where }, línea { $line }
log-too-many = tiene más de { $most } lecturas
log-too-many-mend = quite las demás
log-empty = está vacío
# seconds, psi, kPa y bar son nombres de columnas, iguales en todos los idiomas.
log-empty-mend = escriba una línea seconds,psi (o kPa, o bar) y las lecturas
# Una fila de una tabla tiene más casillas que columnas la tabla.
log-wide = tiene { $values } valores para { $columns } columnas
log-wide-mend = separe las columnas con ; donde la coma es decimal
log-no-row-mend = escriba números sencillos
# $names son nombres de columnas, de las que debe haber una; abajo, $name también es una.
log-columns = { $count ->
    [0] no tiene la columna { EITHER($names) }
   *[other] tiene { $count } columnas { $names }
 }
log-columns-mend = nombre las columnas en la primera línea: seconds,psi (o kPa, o bar)
log-no-number = { $name } es { $cell }
log-no-number-mend = escriba un número sencillo
