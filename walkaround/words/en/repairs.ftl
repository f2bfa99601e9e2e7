# What was done about a defect: one tap each, and a line in the record.
repairs-title = Repaired
repairs-question = What was done?
repairs-nothing = Nothing done: look again
# Why a repaired step is not asked again at once.
repairs-air-out = Air was out for it: recheck in a walk of its own, from the record.
repairs-caution = Brake work: by a qualified person, air out, chocks in. Never open a spring brake chamber.
repairs-automatic = Automatic adjuster too long? Find out why: setting it by hand hides what is wrong.

# A likely cause that was mended: "Mended: poor ground at the left rear".
repair-cause = Mended: { $cause }
repair-lamp = Lamp, bulb or lens changed
repair-wire = Wire or splice mended
repair-ground = Ground mended
repair-plug = Plug or cable mended
repair-cleaned = Cleaned, tightened
repair-replaced = Replaced
repair-adjuster = Slack adjuster changed or set
repair-chamber = Chamber changed
repair-hose = Hose or fitting changed
repair-lining = Lining, drum or pads changed
repair-seal = Gladhand seal changed
repair-valve = Valve changed or mended
repair-drain = Drain shut or changed
repair-other = Something else
