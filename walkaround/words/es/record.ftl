# Lo que dice el registro de un recorrido, en la pantalla y en los archivos para otros.

record-notice = Revisión de luces y frenos de aire: lo revisado, lo hallado y lo no revisado. No es una inspección periódica (49 CFR 396.17). Las reparaciones de frenos las firma personal calificado (49 CFR 396.25).
record-air-shop = Aire de la línea del taller.
record-air-coupled = Aire del vehículo que lo remolca.
record-towed = Unidades remolcadas: { $count }.
# A qué se carga un remolque solo con aire del taller, y lo que puede perder en un minuto.
shop-figures = { $whose ->
    [shop] Cifras propias de este taller para un remolque solo con su aire: suministro { $supply }, servicio { $service }; como máximo { $released } con los frenos liberados, { $applied } aplicados.
   *[shipped] Cifras usadas para un remolque solo con aire del taller: suministro { $supply }, servicio { $service }; como máximo { $released } con los frenos liberados, { $applied } aplicados (práctica común, sin fuente).
 }
# Por qué un paso no tiene respuesta.
record-walk-ended = terminó el recorrido
# Una prueba de fuga que no cuenta.
record-void = no vale: { $why }
record-bounds = { CAPITAL($span) }.
# Con qué se dio una respuesta.
record-by-tap = tocada
record-by-key = por tecla
record-by-voice = por voz
