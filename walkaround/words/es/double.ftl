# Revisión doble: dos personas recorren un vehículo sin ver las respuestas de la otra.
start-walkers = Lo recorre
start-double-one = Una persona
start-double-two = Dos, por separado
# What it means when two walk; shown below the choice.
start-double-how = La segunda persona empieza en su propio teléfono. Ninguna ve las respuestas de la otra hasta que los dos recorridos estén cerrados.
# On the start screen of a vehicle that somebody walks already.
double-waits = { $who } recorre este vehículo para una revisión doble.
double-waits-how = Usted también puede recorrerlo, por su cuenta. No verá nada del otro recorrido hasta que los dos estén cerrados.
double-other-name = El segundo recorrido necesita otro nombre que el primero: elija el suyo abajo.
double-second = Recorrerlo como segunda persona
double-shut = { $who } recorre este vehículo para una revisión doble. Las respuestas se muestran cuando los dos recorridos estén cerrados.
# In lists, instead of what a walk found.
double-under-way = Revisión doble en curso
double-compare = Comparar los dos recorridos
double-title = Revisión doble
double-not-yet = Los dos recorridos tienen que estar cerrados antes de compararlos.
double-walkers = { $first } y { $second }
double-differences = { $count ->
    [0] Sin diferencias
    [one] 1 paso es diferente
   *[other] { $count } pasos son diferentes
 }
double-alike = Misma respuesta en { $alike } de { $things } cosas revisadas.
double-kappa = Kappa de Cohen: { $kappa }
double-kappa-what = 1 es acuerdo total, 0 no más de lo que daría el azar.
double-no-kappa = Sin kappa: no hay diferencias que el azar pueda explicar.
# Which lamps or wheel ends of a step differ.
double-of = Diferente: { ITEMS($things) }
double-read = Misma respuesta, pero las lecturas se apartan más que las marcas de la escala.
double-records = Los registros
double-record = Registro de { $who }
double-sign = Instructor
double-sign-what = Quien firma ha mirado los dos recorridos con las dos personas que los hicieron.
double-instructor = Nombre del instructor
double-sign-other = Uno de los dos que recorrieron no puede firmar por ambos.
double-sign-now = Firmar
double-signed = Firmado: { $who }, { $time }
# Instead of a file of a walk.
double-files-wait = Este recorrido es parte de una revisión doble. Sus archivos estarán cuando los dos recorridos estén cerrados.
