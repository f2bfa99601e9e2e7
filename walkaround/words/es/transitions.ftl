# Por qué un recorrido no admite ahora un suceso. $step es el id de un paso.

refused-phase = Un recorrido { $phase ->
    [unstarted] sin empezar
    [stepping] en curso
    [holding] en prueba de fuga
    [paused] en pausa
   *[finished] terminado
 } no admite el suceso '{ $kind }'.
refused-order = El suceso { $number } no sigue al suceso { $last }.
refused-no-step = Este recorrido no tiene el paso '{ $step }'.
refused-same-photo = Esta foto ya está en el registro.
refused-more-photos = En un recorrido caben como máximo { $most } fotos.
refused-late = El paso '{ $step }' no es el que se pide ahora.
refused-no-hold = El paso '{ $step }' no es una prueba de fuga.
refused-no-correction = No hay prueba de fuga que corregir.
refused-no-gauges = El paso '{ $step }' no pide manómetros.
refused-no-stopwatch = El paso '{ $step }' no tiene cronómetro.

refused-must = El paso '{ $step }' no se puede saltar.
refused-reason = Una razón va con 'sin revisar', y solo con eso.
refused-fault = Una falla vista hace de la respuesta un defecto.
refused-no-item = El paso '{ $step }' no tiene nada llamado '{ $item }'.
refused-missing = Lo que las reglas exigen falta; no es 'no lleva'.
refused-not-fitted = El paso '{ $step }' es obligatorio: no puede ser 'no lleva'.

refused-outside = Un valor está fuera de su límite: eso es un defecto.
refused-not-within = El paso está bien solo cuando todos los valores están anotados y dentro de su límite.
refused-gauges-untold = Aún no se dijo cómo son los manómetros.
refused-waiting = Todavía faltan { $seconds } s.
refused-no-value = El paso '{ $step }' no toma ningún valor llamado '{ $value }'.
refused-unit = El paso '{ $step }' no toma valores en { $unit }.
stopwatch-restarted = La computadora se reinició mientras corría el tiempo: empiece otra vez.
stopwatch-slept = La computadora se durmió mientras corría el tiempo: empiece otra vez.
stopwatch-away = La computadora se durmió, se reinició o le cambiaron la hora mientras corría el tiempo: empiece otra vez.

refused-minute = Aún no está la última lectura del minuto.
refused-not-ended = La prueba aún no ha llegado a eso.
refused-misread = Una lectura no cuadra, y así la regla simple no puede juzgar: repita la prueba.
refused-over = La prueba de fuga perdió más que su límite: eso es un defecto.
refused-hold-unread = Una prueba de fuga se responde después de su última lectura.
refused-settling = El aire aún se estaba asentando: repita la prueba.
refused-left-over = La prueba de fuga perdió más que su límite: responda primero el paso '{ $step }'.
refused-no-reading = Esta prueba no lee ningún manómetro '{ $gauge }'.
refused-read-already = El manómetro { $gauge } ya se leyó a los { $seconds } s o después.
refused-no-such-reading = El manómetro { $gauge } no se leyó a los { $seconds } s.
refused-mending = Esta lectura del manómetro { $gauge } se queda: pare la prueba y repítala.

refused-unanswered = El paso '{ $step }' aún no tiene respuesta a la que volver.
refused-no-defect = El paso '{ $step }' no tiene defecto abierto que revisar otra vez.
refused-recheck = El vehículo ya no está como ese paso lo necesita: revíselo otra vez en un recorrido aparte.

refused-no-end = El paso '{ $step }' no pide ninguna cámara ahí.
refused-stroke-taken = Ya se midió una carrera contra el límite de esta cámara: léala otra vez en un recorrido aparte.
refused-unlike = Las cámaras de los dos lados no son iguales: eso es un defecto.
refused-no-choice = El paso '{ $step }' no tiene la opción '{ $choice }'.
refused-unchosen = El paso '{ $step }' se hace de una de varias maneras: diga cuál.
