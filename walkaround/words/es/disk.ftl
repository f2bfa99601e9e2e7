# Lo que un disco no hizo, y cómo arreglarlo. $reason es lo que dice la computadora.

disk-cannot-be-read = { $path } no se puede leer ({ $reason }); dé permiso de lectura a este usuario.
disk-no-ordinary-file = { $path } no se puede leer (no es un archivo común); muévalo a otra carpeta.
disk-file-too-large = { $path } no se puede leer (pasa de { $mb } MB); muévalo a otra carpeta.
disk-write-full = No queda lugar para guardar { $path }; libere espacio y repita lo último.
disk-write-denied = { $path } no se puede escribir ({ $reason }); dé permiso de escritura en su carpeta a este usuario o elija otra con --data.
disk-write-no-folder = { $path } no se puede usar como carpeta ({ $reason }); indique una carpeta con --data.
disk-write-gone = { $path } no se puede escribir porque ya no está su carpeta; devuélvala y repita lo último.
disk-write-failed = { $path } no se pudo escribir ({ $reason }); revise el disco o elija otra carpeta con --data.
disk-unknown-fault = falla desconocida
disk-open-to-others = { $path } no se puede cerrar a otros usuarios ({ $reason }); elija una carpeta propia con --data.
disk-folder-in-use = { $folder }: otro walkaround está usando esta carpeta de datos; párelo o elija otra con --data.
disk-folder-in-use-by = { $folder }: otro walkaround (proceso { $process }) está usando esta carpeta de datos; párelo o elija otra con --data.
disk-log-cannot-be-written = walkaround: No se puede escribir la bitácora en { $folder } ({ $reason }); walkaround sigue sin ella.
