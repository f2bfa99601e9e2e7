practice-title = Práctica
practice-strip = Práctica: no toque nada real.
practice-caution = Práctica: no toque nada real. { $caution }
practice-what = Una ronda en un vehículo que solo está en la pantalla, con una falla. Responda lo que ve, oye y lee. Al final sabrá lo que se le pasó.
practice-apart = La práctica se guarda aparte de los registros. Nadie puede entregarla como revisión.
practice-which-vehicle = ¿En qué vehículo?
practice-which-level = ¿Qué tan difícil?
practice-level-dead-lamp = Una luz apagada
practice-about-dead-lamp = Un foco o una luz no enciende.
practice-level-bad-ground = Una mala tierra
practice-about-bad-ground = Las luces de una esquina se ven débiles o apagadas, o encienden otras.
practice-level-crossed-turns = Direccionales cruzadas
practice-about-crossed-turns = La izquierda y la derecha tienen los cables cambiados.
practice-level-leak = Una fuga pequeña
practice-about-leak = Un manómetro pierde un poco más de lo permitido. La prueba dura su tiempo real.
practice-level-odd-chamber = Una cámara que no es la del archivo
practice-about-odd-chamber = Una cámara es de la otra clase, de carrera larga o estándar, y tiene otro límite.
practice-lamp = { $number }: { $item }, { $look ->
    [steady] encendida
    [flashing] parpadeando
    [dim] débil
    [dim-flashing] parpadeando débil
   *[dark] apagada
}
practice-needle = aguja en { $psi } psi
practice-listen = Escuchar aquí
practice-hiss-here = Se oye salir aire.
practice-quiet = No se oye aire.
practice-as-done = Aquí esto cuenta como hecho y bien.
practice-chamber = { CAPITAL($side) }: { $chamber }.
practice-rule = La regla marca { $stroke }.
practice-gauge = { CAPITAL($value) }: el manómetro marca { $reading }.
practice-seconds = { $seconds ->
    [one] Tarda un segundo.
   *[other] Tarda { $seconds } segundos.
}
practice-none = Aquí no se puede practicar nada: el vehículo cambió desde entonces.
practice-full = { $full } de { $due }
practice-cause = Lo que estaba mal
practice-what-came = Lo que usted respondió
practice-found = Encontrado
practice-called-otherwise = Encontrado, pero con otro nombre
practice-missed = Se le pasó
practice-none-there = Reportado, pero ahí no había nada malo
practice-kept-apart = Esto fue práctica. No es un registro.
practice-again = Otra vez, con otra falla
practice-other-level = Otro nivel
practice-odd-chamber = { $end }: la cámara es { $chamber }, y el archivo dice la otra clase
practice-why-odd-chamber = { $over ->
    [yes] Una carrera de { $stroke } pasa de su límite de { $limit }, aunque una cámara de carrera larga podría tenerla. Además, los dos extremos del eje no son iguales.
   *[no] Una carrera de { $stroke } está dentro de su límite de { $limit }, aunque pasa del de una cámara estándar. Los dos extremos del eje no son iguales: ese es el defecto.
}
