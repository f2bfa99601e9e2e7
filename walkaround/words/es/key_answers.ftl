key-answers-step-needs-tap = Pide un toque: ni tecla ni voz responden esto.
key-answers-recheck-needs-tap = Segunda revisión: solo un toque dice Bien.
key-answers-defect-needs-tap = Aquí hay un defecto abierto: solo un toque dice Bien.
# Se dice después de una respuesta dada con una tecla: por qué se tomó, y qué se vio.
key-answers-echo = { $answer }.
key-answers-echo-seen = { $answer }: { $seen }.
key-answers-taken-back = Retirado.
# Se dice al final de una vuelta al vehículo; $defects nombra dónde, $left cuenta lo que se dejó.
key-answers-round-over = { $rounds ->
    [one] Luces listas
   *[other] Vuelta { $number } lista
 }: { $count ->
    [0] ningún defecto
    [one] 1 defecto, { $defects }
   *[other] { $count } defectos, { $defects }
 }{ $left ->
    [0] .
    [one] ; 1 mirada sin revisar.
   *[other] ; { $left } miradas sin revisar.
 }
key-answers-round-defect = { $step }: { $seen }
# En un paso: qué tecla es para qué respuesta.
key-answers-key = { $key } { $action }
keys-title = Teclas y pedales
keys-what = Un pasapáginas, un presentador, un interruptor de pie, teclas de números: lo que haga de teclado de este teléfono, y el botón de unos audífonos si el navegador lo transmite. Toque lo que una tecla debe hacer y oprímala una vez.
keys-never = Las teclas responden miradas de luces y reflectores, y otras miradas sencillas. Todo lo demás pide un toque: calzas, aire, frenos, manómetros, segundas revisiones, cerrar un recorrido.
keys-take-back = Atrás, en los 10 segundos después de una respuesta con tecla, retira esa respuesta.
keys-for-ok = Bien
keys-for-defect = Defecto
keys-for-again = Otra vez
keys-for-explain = Explicar
keys-for-back = Atrás
keys-for-talk = Oprimir y hablar
keys-learnt-for = { $action }: { $keys }
keys-none-for = { $action }: sin tecla
keys-press-now = { $action }: oprima ahora su tecla
keys-learnt = { $action }: aprendida.
keys-cannot-be-learnt = Esa tecla no se puede aprender: oprima otra.
keys-forget = Olvidar todas las teclas
