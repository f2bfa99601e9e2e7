# Words in pictures, and pictures in words for those who hear the screen.

# On the plan, in capitals; short ones, since there is little room.
picture-you = YOU
picture-front = FRONT
picture-rear = REAR
picture-left = LEFT
picture-right = RIGHT
picture-plan = Plan of { $vehicle }, seen from above: { $where }, { $count ->
    [one] 1 place marked
   *[other] { $count } places marked
 }
picture-end = { CAPITAL($where) } of { $vehicle } as you see it, { $count ->
    [one] 1 place marked
   *[other] { $count } places marked
 }
picture-plan-without-marks = Plan of { $vehicle }, seen from above: you stand at the { $where }
picture-at-front = front
picture-at-right-side = right side
picture-at-rear = rear
picture-at-left-side = left side
picture-at-cab = cab
picture-at-source = source

# The face of a connector.
face-into-socket = Looking into the vehicle's socket
face-into-plug = Looking into the plug
face-contacts-of-socket = Contacts of the vehicle's socket
face-contacts-of-plug = Contacts of the plug
face-lid-at-top = Lid hinge at the top
face-notch-at-top = Notch at the top
face-notch-at-bottom = Notch at the bottom
face-not-to-scale = Layout not drawn to scale: { face-go-by }
face-memory = { $upright }. From memory: { face-go-by }
face-read = { $upright }. If in doubt, { face-go-by }
face-go-by = go by the { $marks ->
    [letters] letters
   *[numbers] numbers
 } beside the contacts.
face-of = { $caption }, { $title }
face-contact = contact { $contact }{ $place ->
    [center] { " " }in the center
    [hour] { " " }at { $hour } o'clock
   *[unknown] { "" }
 }: { $function }{ $doubt ->
    [yes] , in doubt
   *[no] { "" }
 }
face-also-in-doubt = also in doubt: { ITEMS($contacts) }
# Contacts, a clause each, and how far to trust the picture.
face-told = { $contacts }. { $advice }

# Line drawings of parts, for those who hear the screen.
drawn-dial = Drawing of a pressure gauge with its marks
drawn-gladhand = Drawing of a gladhand: rubber seal and locking lug
drawn-slack-adjuster = Drawing of a slack adjuster, its pushrod marked at the face of the chamber
drawn-stroke = Drawing of a pushrod that is out: measure from the face of the chamber to the mark
drawn-drain = Drawing of a reservoir with its drain open
drawn-chock = Drawing of a wheel between two chocks
drawn-spring-chamber = Drawing of a spring brake chamber with its cage bolt
drawn-abs-lamp = Drawing of an ABS lamp on the side of a trailer
