# Las páginas de quien no puede entrar; `access-language` es el código de este idioma.

access-language = es
access-unpaired-title = Este aparato no está emparejado
access-unpaired-text = Vaya a la computadora donde corre walkaround y escanee con este aparato el código de su pantalla, o abra la dirección completa que muestra, con la clave al final.
access-foreign-title = No desde aquí
access-foreign-text = Abra exactamente la dirección que muestra walkaround en la computadora donde corre.
access-large-title = Demasiado de una vez
access-large-text = Nada de lo que se envía aquí puede ser tan grande.
access-wait-title = Demasiadas claves equivocadas
access-wait-text = De este aparato o de su red llegaron demasiadas claves equivocadas. Espere un minuto y escanee el código de la pantalla de la computadora donde corre walkaround.
access-full-title = Hay demasiadas páginas abiertas
access-full-text = Cierre las páginas que nadie mira y vuelva a cargar esta.

# Certificados propios.
trouble-no-file = no hay ningún archivo { $path }
trouble-certificate-unreadable = { $chain } o { $key } no se puede leer
problem-make-them-readable = dé permiso de lectura
trouble-no-certificate = { $chain } y { $key } no son un certificado y su clave
problem-give-two-pem-files = indique dos archivos PEM que correspondan, la clave sin contraseña

# Dónde se sirve la aplicación.
address-port-taken = El puerto { $port } de { $host } no se puede usar ({ $reason }); elija otro con --port o cierre el programa que lo ocupa.
address-no-port = No existe el puerto { $port }; elija uno de 0 a 65535 con --port.
address-no-network = Esta computadora no está en ninguna red que --lan pueda abrir; conéctela primero o indique su dirección con --host.
