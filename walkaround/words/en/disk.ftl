# What a disk did not do, and how to mend it. $reason is what the computer says of it.

disk-cannot-be-read = { $path } cannot be read ({ $reason }); make it readable for this user.
disk-no-ordinary-file = { $path } cannot be read (it is no ordinary file); move it to another folder.
disk-file-too-large = { $path } cannot be read (it is larger than { $mb } MB); move it to another folder.
disk-write-full = There is no room left to save { $path }; free some space and do the last thing again.
disk-write-denied = { $path } cannot be written ({ $reason }); make its folder writable for this user or choose another with --data.
disk-write-no-folder = { $path } cannot be made a folder ({ $reason }); name a folder with --data.
disk-write-gone = { $path } cannot be written because its folder is gone; put it back and do the last thing again.
disk-write-failed = { $path } could not be written ({ $reason }); check the disk, or choose another folder with --data.
disk-unknown-fault = unknown fault
disk-open-to-others = { $path } cannot be closed to other users ({ $reason }); choose a folder of your own with --data.
disk-folder-in-use = { $folder }: another walkaround is using this data folder; stop it or choose another with --data.
disk-folder-in-use-by = { $folder }: another walkaround (process { $process }) is using this data folder; stop it or choose another with --data.
disk-log-cannot-be-written = walkaround: The log in { $folder } cannot be written ({ $reason }); walkaround goes on without it.
