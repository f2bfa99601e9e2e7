# De qué responde la gente con su nombre, y firma con un dedo.

sign-title = Firmar
sign-heading = Firmas
sign-nobody = Sin firmas todavía. Lo que nadie firma aquí queda como una línea para la pluma.
sign-what = ¿Qué firma?
sign-name = Quién firma
sign-name-first = Primero escriba quién firma.
sign-draw = Firme aquí con un dedo.
sign-again = Dibujar de nuevo
sign-keep = Guardar la firma
sign-keep-name = Firmar en papel
sign-full = No cabe más en el campo; dibuje de nuevo, más sencillo.
# Para quienes lo oyen.
sign-signature-of = Firma de { $name }
sign-field = Campo para dibujar una firma
sign-tagged = Etiqueta de fuera de servicio puesta por { $name }, { $time }. Queda puesta hasta que alguien la quite aquí.

sign-walked = Recorrido y registrado
sign-tag-placed = Etiqueta de fuera de servicio puesta
sign-tag-lifted = Etiqueta de fuera de servicio quitada
sign-repaired = Reparado
sign-brakes = Reparaciones de frenos, firmadas por una persona calificada en frenos (49 CFR 396.25)
# Lo que el transportista certifica en el reporte en el que un conductor nombró el defecto.
sign-drivers-repaired = Reparado, según lo certificado en el reporte del conductor que nombró el defecto (49 CFR 396.11(a)(3)(ii))
sign-drivers-unnecessary = No hacía falta reparar, según lo certificado en el reporte del conductor que nombró el defecto (49 CFR 396.11(a)(3)(ii))

# Lo que se firma, en un botón de dos líneas cuando más.
sign-for-walked = El recorrido y su registro
sign-for-tag-placed = Etiqueta de fuera de servicio puesta
sign-for-tag-lifted = Etiqueta de fuera de servicio quitada
sign-for-repaired = Una reparación
sign-for-brakes = Frenos reparados (persona calificada)
sign-for-drivers-repaired = Reporte del conductor: reparado
sign-for-drivers-unnecessary = Reporte del conductor: no hacía falta
