# Lo que puede impedir que una computadora hable.

# $why es una de las de abajo: una frase, sin punto.
voice-none = Sin voz: { $why }; las palabras están en la pantalla.
voice-no-answer = el motor de voz no respondió
voice-stopped = el motor de voz se paró
voice-bad-answer = el motor de voz falló (su respuesta no es respuesta)
# $reason es lo que dice el motor.
voice-failed = el motor de voz falló ({ $reason })
voice-closed = el motor de voz está cerrado
voice-no-start = el motor de voz no arrancó ({ $reason })
voice-no-sound = el motor de voz no dio sonido
voice-unwritten = no se puede escribir { $folder } ({ $reason })
voice-busy = lo que estaba en cola antes de una indicación tardó demasiado
