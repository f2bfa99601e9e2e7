# La base de datos de una flota, en la que muchos depósitos ponen sus recorridos.

fleet-no-driver = Esto necesita el controlador de la base de datos, que viene con el extra fleet: pip install 'walkaround[fleet]'.
fleet-no-address = esto no es la dirección de una base de datos
fleet-no-address-kept = aquí no se guarda ninguna dirección, pues desde aquí aún no se publicó nada
fleet-write-an-address = escríbala como postgresql://USUARIO@SERVIDOR/BASE, la contraseña en ~/.pgpass
fleet-link-failed = No se puede usar la base de datos de la flota ({ $why }). Lo publicado queda; repítalo cuando se la pueda alcanzar.
fleet-later-version = Una versión posterior de walkaround hizo las tablas de la base de datos de la flota; actualice walkaround.
fleet-no-walk = no se publicó ningún recorrido de un vehículo con este id, placa o VIN
fleet-name-a-vehicle = nombre un vehículo por su id, placa o VIN, como lo tiene el depósito que lo publicó
