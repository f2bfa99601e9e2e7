# A fleet's database, in which many depots put their walks.

fleet-no-driver = This needs the database driver, which comes with the extra fleet: pip install 'walkaround[fleet]'.
fleet-no-address = this is no address of a database
fleet-no-address-kept = no address is kept here, since nothing was published from here yet
fleet-write-an-address = write it as postgresql://USER@HOST/DATABASE, the password in ~/.pgpass
fleet-link-failed = The fleet's database cannot be used ({ $why }). What was published stays; do it again when it can be reached.
fleet-later-version = A later version of walkaround made the tables of the fleet's database; update walkaround.
fleet-no-walk = no walk of a vehicle with this id, plate or VIN was published
fleet-name-a-vehicle = name a vehicle by its id, plate or VIN, as the depot that published it has it
