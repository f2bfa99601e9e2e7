# The walk of one vehicle on one printed sheet.
# Its button: the sheet for lamps that are switched from a box in hand, the cab and so on.
card-button = Imprimir todos los pasos: { $switched }
card-heading = Todos los pasos en una hoja
card-title = { $vehicle }: todos los pasos
card-about = Luces prendidas desde: { $switched }. { $count ->
    [one] Un paso
   *[other] { $count } pasos
 }.
card-code = Escanee para empezar el recorrido; lo abre un teléfono vinculado.
# Put before what could hurt somebody.
card-caution = ! { $caution }
card-foot = Solo un recordatorio. Los límites siguen al vehículo tal como está: responda cada paso en el recorrido, donde queda registrado.
