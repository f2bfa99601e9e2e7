# Lo que hicieron los relojes de la computadora durante un recorrido: una frase de cada clase, para el
# registro. La primera de cada par es de una vez, la segunda de varias. $place es una de las dos
# últimas.

clock-back-once = El reloj de la computadora se atrasó { $span } durante este recorrido, { $place }.
clock-back-often = El reloj de la computadora se atrasó { $count } veces, como máximo { $span }, durante este recorrido, la primera { $place }.
clock-ahead-once = El reloj de la computadora se adelantó { $span } durante este recorrido, { $place }.
clock-ahead-often = El reloj de la computadora se adelantó { $count } veces, como máximo { $span }, durante este recorrido, la primera { $place }.
clock-restarted-once = La computadora se reinició durante este recorrido, { $place }.
clock-restarted-often = La computadora se reinició { $count } veces durante este recorrido, la primera { $place }.
clock-slept-once = La computadora durmió { $total } durante este recorrido, { $place }.
clock-slept-often = La computadora durmió { $count } veces durante este recorrido, { $total } en total, la primera { $place }.
# Donde el sistema no distingue dormir, reiniciar y cambiar la hora.
clock-away-once = La computadora durmió, se reinició o le adelantaron la hora { $total } durante este recorrido, { $place }.
clock-away-often = La computadora durmió, se reinició o le adelantaron la hora { $count } veces durante este recorrido, { $total } en total, la primera { $place }.
clock-place-start = antes de la primera respuesta
clock-place-step = después del paso "{ $step }"

span-seconds = { $seconds } s
span-minutes = { $minutes } min
span-hours = { $hours } h
span-hours-minutes = { $hours } h { $minutes } min
# Nunca uno: menos de dos días se dicen en horas.
span-days = { $days } días
