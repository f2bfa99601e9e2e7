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
home-steps-answered = { $answered } de { $steps } pasos respondidos, empezado el { $day } { MONTH($month) }, { $time }

records-title = Registros
records-none = Aún no hay recorridos. Empiece uno en la primera pantalla.
records-older = Anteriores ({ $count })
record-going = { $answered } de { $steps } respondidos
record-closed = Cerrado, { defects-open }{ $ended ->
    [partial] , parcial
   *[whole] { "" }
 }

settings-title = Ajustes
settings-data = Los registros se guardan en { $folder }
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
