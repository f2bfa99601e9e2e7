# The walk of one vehicle on one printed sheet.
# Its button: the sheet for lamps that are switched from a box in hand, the cab and so on.
card-button = Print all steps: { $switched }
card-heading = All steps on one sheet
card-title = { $vehicle }: all steps
card-about = Lamps switched from: { $switched }. { $count ->
    [one] One step
   *[other] { $count } steps
 }.
card-code = Scan to start the walk; a paired phone opens it.
# Put before what could hurt somebody.
card-caution = ! { $caution }
card-foot = Only a reminder. Limits follow the vehicle as it stands: answer each step in the walk, where it is recorded.
