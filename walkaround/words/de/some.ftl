# Half a dozen screens' worth of German: a language may begin so. What stands in no file of this
# folder is shown in English, and nothing is spoken in German until nothing is lacking.

app-name = walkaround
home-what-it-is = Leuchten und Druckluftbremsen, ein Schritt nach dem anderen
home-go-on = Weiter
home-start-a-walk = Rundgang beginnen

records-title = Aufzeichnungen
records-none = Noch kein Rundgang. Beginnen Sie einen auf der ersten Seite.

settings-title = Einstellungen
settings-language = Sprache
settings-language-lacks = { $count ->
    [one] 1 Text ist noch englisch.
   *[other] { $count } Texte sind noch englisch.
 } Gesprochen wird englisch, bis keiner mehr fehlt.
settings-prompts = Ansagen
settings-brisk = Knapp
settings-short = Kurz
settings-with-reasons = Mit Gründen
settings-voice = Stimme
settings-spoken = Gesprochen
settings-silent = Stumm
settings-colors = Farben
settings-as-phone = Wie das Telefon
settings-light = Hell
settings-dark = Dunkel

vehicles-title = Fahrzeuge
vehicle-new = Neues Fahrzeug
go-back = Zurück

start-check = Prüfen
start-scope-whole = Alles
start-scope-lamps = Leuchten
start-scope-brakes = Bremsen
start-the-walk = Rundgang beginnen

answer-ok = In Ordnung
answer-defect = Mangel
answer-missing = Fehlt
answer-not-fitted = Nicht verbaut
answer-not-checked = Nicht geprüft
answer-done = Erledigt

steps-title = Schritte und Antworten
steps-no-answer = noch keine Antwort
