# Lo que se hizo con un defecto: un toque cada cosa, y una línea en el registro.
repairs-title = Reparado
repairs-question = ¿Qué se hizo?
repairs-nothing = No se hizo nada: mirar otra vez
# Por qué un paso reparado no se pide otra vez enseguida.
repairs-air-out = Se sacó el aire para eso: revíselo otra vez en un recorrido aparte, desde el registro.
repairs-caution = Trabajo de frenos: una persona calificada, sin aire, calzas puestas. Nunca abra una cámara de resorte.
repairs-automatic = ¿Ajustador automático con demasiada carrera? Averigüe por qué: ajustarlo a mano tapa lo que está mal.
# Una causa probable que se arregló: "Arreglado: mala tierra atrás a la izquierda".
repair-cause = Arreglado: { $cause }
repair-lamp = Luz, foco o mica cambiada
repair-wire = Cable o empalme arreglado
repair-ground = Tierra arreglada
repair-plug = Enchufe o cable arreglado
repair-cleaned = Limpiado, apretado
repair-replaced = Cambiado
repair-adjuster = Ajustador cambiado o ajustado
repair-chamber = Cámara cambiada
repair-hose = Manguera o conexión cambiada
repair-lining = Balata o tambor cambiado
repair-seal = Empaque del acople cambiado
repair-valve = Válvula cambiada o arreglada
repair-drain = Drenaje cerrado o cambiado
repair-other = Otra cosa
