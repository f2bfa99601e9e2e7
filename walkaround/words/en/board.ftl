# The board of a shop: what is open for the next shift, on the screen and on one page.

board-title = Board
board-tagged = Out of service: tagged
board-none-tagged = No tag was placed that is not lifted.
board-open = Open defects, the oldest first
board-none-open = No defect is open.
board-going = Walks under way
board-none-going = No walk is under way.
board-made = Made
board-vehicles = Vehicles with open defects
board-tags = Vehicles tagged
board-under-way = Walks under way
board-tag-since = Tag placed in the walk of
# At the foot of each sheet.
board-foot = Board, { $day }
board-open-for = Open for
board-done-by = Done by
board-age = { $days ->
    [0] today
    [one] 1 day
   *[other] { $days } days
 }
board-print = Print (PDF)
board-older = { $count ->
    [one] 1 more vehicle
   *[other] { $count } more vehicles
 }
board-tag = Tagged out of service in the walk of { $day }
board-row = { $step } ({ $age })
board-by = By { $who }

history-title = History
history-reading = Reading the walks …
history-latest = Of the latest { $count } walks.
history-values = Air holds and strokes
history-defects = Defects
history-no-defect = No defect was found.
# What a chart shows, for those who hear it.
history-told = One after the other: { ITEMS($values) }. Limit: { $limit }.
history-no-limit = not known
history-limit = Dashed: limit { $limit }
history-of-gauge = { $step }: { $gauge }
# In which set-up the values of one chart were taken.
history-air-shop = Loss a minute on the shop's air, gauge read to { $step }
history-air-coupled = Loss a minute coupled, gauge read to { $step }
history-stroke = Pushrod stroke
history-line = The line fits these walks; it lies in the gray with 95 %. It says nothing of later days.
history-found = { $day }: found by { $who }
history-back = { $day }: come back, found by { $who }
history-repaired = { $day }: repaired, told by { $who }
history-ok = { $day }: OK, by { $who }
history-withdrawn = { $day }: taken back as no defect by { $who }

# How long walks are kept, and taking out those that need not be.
keeping-title = How long walks are kept
keeping-never = Nothing goes by itself. A walk of a vehicle with an open defect, and one under way, never goes.
keeping-vehicles = Vehicles that have left
keeping-no-vehicle = Every vehicle with walks is here. Delete a vehicle that has left; then it stands here.
keeping-removed = Not among the vehicles any more.
keeping-left = Left on { $day }. Six months after that, its walks older than a year may go.
keeping-gone = Left our control today
keeping-not-gone = It has not left
keeping-may-go = Walks that need not be kept
keeping-none = None.
keeping-walk = { $day }, { $photos ->
    [0] no photo
    [one] 1 photo
   *[other] { $photos } photos
 }
keeping-delete = { $count ->
    [one] Delete 1 walk
   *[other] Delete { $count } walks
 }
keeping-question = Delete for good?
keeping-means = { $count ->
    [one] 1 walk goes for good
   *[other] { $count } walks go for good
 }, with { $photos ->
    [0] no photo
    [one] 1 photo
   *[other] { $photos } photos
 }. Nothing brings them back but a record file that was shared before.
keeping-keep = Keep them
