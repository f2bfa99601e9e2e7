# Walks handed on as a record file, checked, and brought together. $shop is what a shop calls
# itself, $key the first figures of its key.

# In the place of $shop where a shop gave itself none.
exchange-no-name = a shop without a name
exchange-signed = Signed by { $shop }, key { $key }.
exchange-signed-unknown = Signed by { $shop }, whose key is not known here: { $key }. Compare it with theirs.
exchange-not-signed = Not signed.
exchange-changed-since = Changed since { $shop }, key { $key }, signed it.
exchange-other-key = It says that it is signed by { $shop }, but this is not the key kept of { $shop }: { $key }.

exchange-no-record-file = it is no record file, or damaged
exchange-later-version = a later version of walkaround wrote it
exchange-bytes-changed = it is not as it was written: bytes were changed or lost on the way
exchange-mend = get it again from where it was shared
exchange-entry-unreadable = its part { $name } cannot be read
exchange-line-too-long = a walk in it is longer than any walk is
exchange-too-many-entries = it has more than { $most } parts
exchange-twice = two of its parts have one name
exchange-other-entries = it has parts that no record file has
exchange-entry-too-large = its part { $name } is larger than any such part is
exchange-entries-overlap = its parts lie in one another

exchange-line-unreadable = Walk number { $place } of the file cannot be read.
exchange-chain-cut = Walk { $walk }: entry { $number } of { $count } was changed, or one before it was taken out.
exchange-entry-of-later-version = Walk { $walk }: entry { $number } of { $count } is of a later version; update walkaround.
exchange-walk-renamed = Walk { $walk } is walk { $other } by its first entry.
exchange-out-of-order = Walk { $walk } stands twice, or out of its place.
exchange-photo-swapped = Walk { $walk }: photo { $photo } is missing or is not the one that was taken.
exchange-photo-of-none = Photo { $photo } was taken in none of the walks.
exchange-signature-unreadable = Walk { $walk }: a signature cannot be read.
exchange-signature-forged = Walk { $walk }: the signature of { $shop }, key { $key }, is forged.
exchange-walk-cut = Walk { $walk } was cut: { $shop }, key { $key }, signed { $signed } entries, { $count } are here.

exchange-too-many-photos = these walks have more than { $most } photos
exchange-share-fewer = share fewer walks at once
shop-key-damaged = { $path } is damaged, the key by which this shop signs; put it back from a backup, or take it away so that a new one is made.
known-shops-damaged = { $path } is damaged, the keys of other shops; put it back from a backup, or take it away.

# What became of the walks of a record file.
exchange-merged = { $added ->
    [one] 1 walk added
   *[other] { $added } walks added
 }, { $same } here already, { $conflicts ->
    [one] 1 went on differently
   *[other] { $conflicts } went on differently
 }, { $refused } refused.
exchange-conflict = Walk { $walk } went on differently here and there: both copies are kept.

# The screens.
sharing-title = Share, bring in
sharing-what = Walks go to another shop as one file and are brought together there. Nothing that is there is lost.
sharing-all = Share all walks
sharing-bring-in = Bring in a file
# One row a walk; one row for each lamp, reading and answer, for a spreadsheet and for programs.
sharing-table-walks-csv = Table of all walks (CSV)
sharing-table-facts-csv = Everything in them, a row each (CSV)
sharing-table-facts-ndjson = Everything in them, for programs (NDJSON)
sharing-coming = { $name } is on its way.
# Below what is in a file that has come.
sharing-take-in = Bring in
sharing-leave-it = Leave it
sharing-not-taken = Nothing of it can be brought in: get it again from where it was shared.
sharing-more-faults = { $count ->
    [one] and 1 more
   *[other] and { $count } more
 }
sharing-did-not-come = { $name } did not come, or is larger than 500 MB; choose it again.
sharing-this-shop = This shop
sharing-name = Name of this shop
sharing-key = Key of this shop: { $key }
sharing-known = Shops known here
sharing-known-shop = { $shop }: { $key }
sharing-conflict = { $vehicle }, { $began }: this walk went on differently here and there. Both copies are kept.
sharing-compare = The key of { $shop } is not known here: { $key }. Compare it with theirs, by telephone or on paper, before you keep it.
sharing-keep-key = Keep this key of { $shop }
record-share = Share
# In the list of records, below a walk's name.
record-other-copy = One of several copies that went on differently
record-copies = This walk went on differently in two places. { $count ->
    [one] There is another copy of it.
   *[other] There are { $count } other copies of it.
 }
# $until: when the last answer of this copy was given.
copy-button = Until { $until }: { $answered } of { $steps } answered, { defects-open }
