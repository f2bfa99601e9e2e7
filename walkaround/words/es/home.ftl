# La primera pantalla, los registros, los ajustes, y cómo se emparejan otros aparatos.

# El nombre de la aplicación, igual en todos los idiomas.
app-name = walkaround
home-what-it-is = Luces y frenos de aire, paso a paso
home-go-on = Seguir
home-more-going = { $count ->
    [one] Hay 1 más en Registros.
   *[other] Hay { $count } más en Registros.
 }
home-start-a-walk = Empezar un recorrido
home-unfinished = Sin terminar, en el paso { $at } de { $steps }, empezado el { $day } { MONTH($month) }, { $time }

records-title = Registros
records-none = Aún no hay recorridos. Empiece uno en la primera pantalla.
records-none-such = No hay tal registro.
records-search = Vehículo, persona, defecto
# Qué registros se muestran.
records-all = Todos
records-with-defects = Defectos abiertos
records-unfinished = Sin terminar
records-older = Anteriores ({ $count })
record-going = { $answered } de { $steps } respondidos{ $count ->
    [0] { "" }
   *[other] , { defects-open }
 }
record-closed = Cerrado, { defects-open }{ $ended ->
    [partial] , parcial
   *[whole] { "" }
 }

settings-title = Ajustes
settings-data = Los registros se guardan en { $folder }
# Sobre lo que cada teléfono tiene para sí, y sobre lo que todos los de un taller comparten.
settings-this-phone = Este teléfono
settings-this-shop = Este taller
settings-shared = Manómetros, presiones y límites son de todos: un cambio aquí es un cambio en cada teléfono.
settings-language = Idioma
# Donde un idioma aún no tiene todos los mensajes; lo dice el idioma que lo suple.
settings-language-lacks = { $count ->
    [one] 1 texto sigue en inglés.
   *[other] { $count } textos siguen en inglés.
 } Lo que se habla va en inglés hasta que no falte ninguno.
settings-prompts = Indicaciones
settings-brisk = Al grano
settings-short = Cortas
settings-with-reasons = Con razones
settings-voice = Voz
# Tras cuántos segundos de silencio se repite un paso por sí solo.
settings-repeat = Repetir un paso por sí solo
settings-repeat-never = Nunca
settings-repeat-after = A los { $seconds } s
settings-spoken = Hablada
settings-silent = Callada
settings-slower = Más lento
settings-faster = Más rápido
settings-softer = Más bajo
settings-louder = Más fuerte
settings-rate = { $words } palabras por minuto, volumen { NUMBER($volume, style: "percent") }
# Se dice cuando cambia la rapidez o el volumen.
settings-sample = Prenda luces de freno. Prendidas: ambas luces de freno; lo demás apagado.
settings-colors = Colores
settings-as-phone = Automático
settings-light = Claro
settings-dark = Oscuro
settings-text-size = Tamaño de letra en este teléfono
settings-percent = { $percent } %
settings-pressures = Presiones en
settings-lengths = Medidas en
settings-inches = Pulgadas
settings-millimetres = Milímetros

# Con qué trabaja el taller un remolque solo con su aire; $figure es una presión o una pérdida.
shop-title = Cifras de su taller para un remolque solo
shop-why = Ninguna regla da cifras para un remolque con aire de taller. Estas son práctica común, sin fuente: cambie lo que su taller hace distinto. El registro las nombra.
shop-supply-psi = Línea de suministro, se carga a
shop-service-psi = Línea de servicio, se carga a
shop-released-psi-per-min = Frenos liberados, como máximo
shop-applied-psi-per-min = Frenos aplicados, como máximo
# Lo dicen los lectores de pantalla en los botones junto a una cifra.
shop-less = Menos: { $what } { $figure }
shop-more = Más: { $what } { $figure }
shop-go-by = Trabajar con estas
shop-goes-by = Su taller trabaja con estas.

pairing-title = Otros aparatos
# --lan queda como está en los comandos.
pairing-this-device-only = Solo se sirve a este aparato. Inicie walkaround con --lan para que entren otros.
pairing-scan-this = Escanee esto con el otro aparato, o abra ahí la dirección.
pairing-whoever-has-it = Quien tenga esta dirección puede responder por usted y leer todos los registros. Un aparato que la abrió queda emparejado hasta que se cambie la clave.
pairing-code = Código de la dirección
pairing-new-key = Clave nueva
pairing-warning = Con una clave nueva se sueltan todos los aparatos de una vez, también este. Para emparejarlos de nuevo, escanee el código que la computadora donde corre walkaround muestra entonces en su terminal.
pairing-keep = Dejarla
pairing-drop-all = Soltar todos
# La primera vez en un teléfono: un paso para probar.
first-title = Pruebe un paso: 20 segundos
first-why = Lo guía hablando por un recorrido: oye qué poner y qué debe verse, mira, y toca lo que es.
first-play = Oír un paso
first-skip = Saltar
first-step-said = Prenda luces de cola. Prendido: ambas luces de cola; lo demás apagado.
first-step-title = Luces de cola, atrás
first-step-words = Prenda luces de cola. Prendido: ambas luces de cola; lo demás apagado.
first-after-ok = Bien: queda guardado, y se dice el siguiente paso.
first-does-ok = Así da una vuelta al vehículo con los ojos en él, y toca después de cada mirada.
first-after-defect = Defecto: pregunta qué luz, y qué tiene.
first-does-defect = Queda a la vista, bien marcado, hasta que ese mismo paso se mire otra vez y esté bien. Se dicen las causas probables, con lo que sigue medir.
first-nothing-kept = Esto fue una prueba: no se anotó nada.
first-done = Empezar
