# Frenos: cámaras, carreras, balatas, y los límites de lo que se mide en ellos.

# Un extremo de un eje; los ejes se cuentan desde el frente.
brake-wheel-end = eje { $axle }, lado { $side }

# Cámaras según su tipo.
brake-chamber-clamp = cámara de abrazadera
brake-chamber-bolt = cámara atornillada
brake-chamber-roto = cámara rotativa
brake-chamber-dd3 = cámara de tres diafragmas
brake-chamber-wedge = cámara de freno de cuña
brake-chamber-other = cámara que no está en ninguna tabla
brake-chamber-of-type = { $chamber } tipo { $type }
brake-chamber-long-stroke = { $chamber }, de carrera larga

# Lo que se mide.
brake-pushrod-stroke = carrera de la varilla
brake-lining-movement = movimiento de la balata
brake-value-time = tiempo
# Una presión que se lee antes de hacer algo, y después.
brake-value-before = manómetro { $gauge } antes
brake-value-after = manómetro { $gauge } después

# Límites, cada uno una frase con dónde está publicado.
limit-at-least = al menos { $least }: { $source }
limit-at-most = como máximo { $most }: { $source }
limit-less-than = menos de { $most }: { $source }
limit-at-least-and-at-most = al menos { $least }, como máximo { $most }: { $source }
limit-at-least-and-less-than = al menos { $least }, menos de { $most }: { $source }
limit-s = { $number } s
limit-percent = { $number } %
brake-stroke-not-known = desconocido
brake-stroke-unread = no se pudo leer la cámara
brake-stroke-unlisted = la cámara no está en ninguna tabla y su carrera nominal no está en el archivo del vehículo
brake-lining-source = El límite está en { $source }.
brake-lining-sources = El límite está en { $source }. También publicado: { $also }.
brake-lining-marked = gastada hasta su indicador de desgaste es demasiado delgada, donde la balata lo tiene ({ $source })
brake-lining-one-strip = { $limit } en una zapata con una sola pieza de balata ({ $source })

# Qué hacer con una carrera que pasa de su límite.
-qualified = una persona calificada en frenos (49 CFR 396.25)
brake-adjuster-automatic = El ajustador es automático: busque la causa, no lo ajuste. Está gastado o mal montado, o el freno tiene una falla: bujes gastados, balatas gastadas, tambor rajado. La reparación es para { -qualified }; después mida otra vez.
brake-adjuster-manual = El ajustador es manual: lo ajusta { -qualified }; después mida otra vez.
brake-adjuster-unknown = El archivo del vehículo no dice si el ajustador es automático: mírelo. Automático: busque la causa, no lo ajuste. Manual: lo ajusta { -qualified }. Después mida otra vez.
brake-adjuster-built-in = El ajustador está dentro del freno. Si es automático, busque la causa, no lo ajuste. Si no, lo ajusta { -qualified }. Después mida otra vez.

# Lo que no se revisa.
brake-not-covered-air = Aquí no se mide la fuerza ni la distancia de frenado, y no se ve el interior de tambores, cámaras y válvulas.
brake-not-covered-air-over-hydraulic = Frenos de aire sobre hidráulico: aquí no se revisan el nivel y las fugas de líquido, el recorrido de los cilindros hidráulicos accionados por aire ni las balatas.
brake-not-covered-electric = Frenos eléctricos: aquí no se revisan sus imanes, cables, controlador, interruptor y batería de desenganche, ni las balatas.
brake-not-covered-surge = Frenos de inercia: aquí no se revisan el recorrido del acoplador, el nivel y las fugas de líquido, el cable de desenganche ni las balatas.
brake-not-covered-none = El archivo del vehículo no nombra frenos: si los tiene, aquí no se revisan, y aquí no se dice si debe tenerlos.
brake-not-covered-abs = Del ABS solo se revisa aquí la luz, no sus sensores, válvulas ni códigos guardados.
brake-not-covered-discs = { $count ->
    [one] Frenos de disco en el eje { $axles }: aquí no se revisan discos, mordazas ni sus pernos guía, ni la carrera de una varilla que no se ve.
   *[other] Frenos de disco en los ejes { $axles }: aquí no se revisan discos, mordazas ni sus pernos guía, ni la carrera de una varilla que no se ve.
 }

# Una fila de un paso en un extremo de un eje: "manguera de freno, lado izquierdo".
brake-row-at-end = { $row }, lado { $side }
# Una cámara en pocas palabras, como está en un botón y se dice: "abrazadera 24, carrera larga 3 in".
# $class dice si es de carrera larga; $rated es la carrera que lleva marcada.
chamber-short = { $actuator ->
    [clamp] abrazadera { $type }
    [bolt] atornillada { $type }
    [roto] rotativa { $type }
    [dd3] tres diafragmas { $type }
   *[other] otro tipo
 }{ $class ->
    [standard] , estándar
    [long] , carrera larga
    [rated] , carrera larga { $rated }
    [doubt] , no se sabe si larga
   *[none] { "" }
 }
chamber-short-unread = tamaño sin leer
chamber-short-unfiled = tamaño no está en el archivo
chamber-tile = Lado { $side }: { $chamber }
# El límite de la carrera en ese extremo; $from dice de dónde se conoce la cámara.
chamber-limit = { $from ->
    [file] Límite { $limit }, según el archivo
    [doubt] Límite { $limit }, estándar: no se sabe si es larga
   *[read] Límite { $limit }, leído en ella
 }
chamber-no-limit = Sin límite conocido: la carrera solo se anota
chamber-said = Lado { $side }: { $chamber }. Límite { $limit }.
chamber-said-without-limit = Lado { $side }: { $chamber }. Sin límite conocido.

# Cámaras como se leyeron en una rueda.
chamber-not-read = cámara que no se pudo leer
chamber-class-in-doubt = { $chamber }, no se sabe si es de carrera larga
limit-class-in-doubt = { $source }; no se sabe si es cámara de carrera larga, así que vale el límite estándar
# La cámara de un extremo de un eje; $read dice si alguien la leyó ahí, o lo intentó.
chamber-at-end = { $read ->
    [unread] lado { $side }: no se pudo leer
    [yes] lado { $side }: { $chamber }, leído en ella
   *[no] lado { $side }: { $chamber }, según el archivo del vehículo
 }
