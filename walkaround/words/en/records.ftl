# What is wrong with walks on the disk, and how to mend it.

# One to three folders.
records-months = { $months }
records-many-months = { $count } folders in { $walks }, from { $first } to { $last },
records-months-shut = Walks may be missing or out of date here: { $which } cannot be read ({ $why }); { $count ->
    [one] make it readable for this user.
   *[other] make them readable for this user.
 }
records-months-failing = Walks may be missing or out of date here: { $which } cannot be read ({ $why }); check the disk, or put { $count ->
    [one] it back from a backup.
   *[other] them back from a backup.
 }
# Before a vehicle is deleted or named anew.
records-vehicles-untold = Which vehicles have walks cannot be told now. { $why }

walk-file-too-large = { $path } is larger than { $mb } MB, which no walk is ({ NUMBER($size, useGrouping: 0) } bytes); take it out of the folder.
walk-file-damaged = The file of walk { $walk } was damaged: its first { $count } entries fit together and are kept, anything after them is lost.
walk-file-unreadable = Nothing of walk { $walk } can be read; its file is left as it is, at { $path }.
walk-file-kept-as = { $damage } The damaged file is kept as { $name }.
walk-file-of-another = { $path } holds walk { $walk }; give the file the name of its walk, or take it out of the folder.
walk-file-not-in-step = The file of walk { $walk } holds { $count } entries, which is not where these go on; stop walkaround and start it again.
walk-too-long = The steps of this walk are too many, or their texts too long ({ NUMBER($size, useGrouping: 0) } bytes): shorten the checklists, or check lamps and brakes apart.
walk-is-there = There is a walk { $walk } already; begin again.
walk-is-full = Walk { $walk } holds all that a walk can; end it, begin another.
walk-not-understood = Walk { $walk } holds an entry that this version does not allow ({ $why }); open it with the version that wrote it.
walk-of-a-later-version = A later version of walkaround wrote this walk; update this one.

# Before the id of a walk.
problem-walk = walk
walk-file-practice = Walk { $walk } is not kept where it belongs: practice lies apart from records.
trouble-no-such-walk = there is no such walk
problem-list-the-walks = list the walks
problem-no-walk-id = is no walk id
problem-write-a-walk-id = write it as a list of walks shows it, like 20261125_081502_4f3a9c
# $photo: the first figures of what the photo is known by.
photo-lost = Photo { $photo } of walk { $walk } is gone or is not the one that was taken; bring it back from a backup or a record file.
problem-photo-unreadable = it is no photo, or damaged
problem-photo-too-large = it is larger than { $mb } MB, or has more pixels than a camera gives
problem-take-another-photo = take another one
