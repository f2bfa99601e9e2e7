# Lo que impide que un vehículo ruede o se vuelque además de sus calzas, una frase sin su punto.

secure-held-semitrailer = Patas de apoyo o gato abajo, o unidad motriz enganchada y estacionada
secure-held-full-trailer = Barra de tiro en su soporte, o unidad motriz enganchada y estacionada
secure-held-pole-trailer = Viga sobre un soporte, o unidad motriz enganchada y estacionada
secure-held-converter-dolly = Barra de tiro en su soporte, o unidad motriz enganchada y estacionada
secure-held-coupled = Unidad motriz con freno de estacionamiento puesto, en neutral, llave en su bolsillo, calzada también
secure-held-power-unit = Freno de estacionamiento puesto, en neutral, motor apagado, llave en su bolsillo
