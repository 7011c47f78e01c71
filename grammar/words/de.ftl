# The words of en.ftl in German; its keys, in its order. Then the names of grammar/hazards.toml.
# A key says what the words are for. Keep each { $name }: something is put in there.

## Every sheet

revision = Revision
equipment = Maschine
models = Modelle
serial-numbers = Seriennummern
time = Zeit
people = Personen
approved = Freigegeben
issued = Ausgegeben
foot-revision = Rev. { $revision }
page-of = Seite { $page } von { $pages }
no-replacement = Dieses Blatt ersetzt weder Ausbildung noch die aktuellen Serviceunterlagen des Herstellers, örtliche Vorschriften oder Arbeiten, für die eine Zulassung nötig ist.
changed-since = Geändert seit Ausgabe { $revision }
new-since = Neu seit Ausgabe { $revision }
gone-since = Nicht mehr da seit Ausgabe { $revision }
steps = Schritte
step = Schritt
step-number = Schritt { $number }
step-range = Schritte { $first } bis { $last }
people-count =
    { $count ->
        [one] { $count } Person
       *[other] { $count } Personen
    }
again-holds = Die Sicherheitshinweise dieser Schritte gelten erneut.

## Safety messages

# GEFAHR, WARNUNG, VORSICHT, HINWEIS: the words of ISO 3864-2 and ANSI Z535.6 in German use, from memory.
danger = Gefahr
warning = Warnung
caution = Vorsicht
notice = Hinweis
note = Anmerkung
harm = Was passieren kann:
first-aid = Erste Hilfe:
hazard-sign = Gefährdung: { $hazard }
holds-until = Gilt, bis Schritt { $step } erledigt ist.
holds-for-next = Gilt für die nächsten { $count } Schritte, { $first } bis { $last }.
holds-to-section-end = Gilt bis zum Ende dieses Abschnitts.
still-holds = Gilt weiterhin:
at-step = (bei Schritt { $step })

## Bench page

skip-to-steps = Zu den Schritten springen
contents = Inhalt
checklist-to-print = Checkliste zum Drucken
before-you-start = Vor Beginn
stop-if-in-doubt = { $open }Im Zweifel anhalten{ $close } und fragen.
must-be-done = Muss erledigt sein
have-ready-to-wear = Schutzausrüstung bereithalten
lay-out = Bereitlegen
parts-to-have-new = Neue Teile
tools = Werkzeuge
supplies = Betriebs- und Hilfsstoffe
other-parts = Weitere Teile bei dieser Arbeit
easily-mistaken = Leicht zu verwechseln
figures = Abbildungen
tightening-values = Anziehwerte
values-from = Werte aus:
sources = Quellen:
where-they-differ = Bei Abweichung von den Angaben des Herstellers anhalten und fragen.
afterwards = Danach
then-do = Danach ausführen
left-so = Zustand am Ende
falls-due-later = Später fällig
when-all-is-done = Wenn alles erledigt ist
closing-work = Werkzeuge zählen, Arbeitsplatz reinigen, { $open }Checkliste{ $close } ausfüllen und unterschreiben.
open = Öffnen:
see = Siehe:
write-down = Aufschreiben:
later = Später:
why = Warum:
source = Quelle:
question = Frage:
show-the-answer = Antwort zeigen

## Bench page, filled in

job-record = Auftragsprotokoll
job-record-says = Diese Seite während der Arbeit ausfüllen. Was eingetragen wird, bleibt auf diesem Gerät: das Protokoll als Datei sichern, wenn die Arbeit fertig ist oder jemand anderswo weiterarbeitet.
machine-model = Modell
choose-model = Auswählen
done-of = { $done } von { $all } Schritten erledigt
kept-here = Wird laufend in diesem Browser behalten.
not-kept = Dieser Browser behält nichts: das Protokoll sichern, bevor die Seite geschlossen wird.
save-record = Protokoll sichern
print-page = Drucken
start-afresh = Neu beginnen
really-afresh = Alles, was auf dieser Seite eingetragen ist, geht verloren. Neu beginnen?
step-done-in = Schritt { $step } erledigt
not-for-this = Nicht für diese Maschine
fill-job-first = Zuerst oben das Auftragsprotokoll ausfüllen.
locked-by = Gesperrt, bis Schritt { $step } unterschrieben und erledigt ist.
signed-after = Schritt { $step } ist unterschrieben. Um dies zu ändern, jene Unterschrift zurücknehmen.
stopped-at = Die Arbeit endete bei Schritt { $step }.
skipped-at = Nach Schritt { $step } übersprungen.
not-for-model = Nicht für { $model }.
came-out-otherwise = Nicht auszuführen: Schritt { $step } ging anders aus.
fill-in-first = Noch einzutragen: { $what }.
no-figure = Ziffern schreiben, mit Dezimalpunkt oder Komma.
within-limits = Innerhalb der Grenzen.
below-limits = Unter { $limits }.
above-limits = Über { $limits }.
out-of-limits = Ein Wert liegt außerhalb der Grenzen: tun, was der Schritt für diesen Fall sagt.
set-again = Halt: mit diesem Wert nicht weiterarbeiten.
outcome-so = Das war so und ist erledigt
method-used = Dieses Verfahren wurde benutzt
choose-one = Das benutzte Verfahren ankreuzen.
do-again = Noch einmal ausführen
again-first = Noch einmal ausführen und die neuen Werte eintragen.
read-before = Zuvor: { $values }.
no-more = So oft wiederholt, wie erlaubt ist. Anhalten und fragen.
unit-of = Einheit von { $what }
signature-of = Vor- und Nachname ({ $role })
sign = Unterschreiben
sign-first = Zu unterschreiben: { $role }.
signed-by = Unterschrieben von { $name }, { $time }
take-back = Zurücknehmen
earlier-first = Zuerst Schritt { $step } ausführen.
not-own-work = Wer die Arbeit ausgeführt hat, unterschreibt sie nicht.

## Instructor's edition

instructors-edition = Ausgabe für Ausbilder
timing = Zeitplan
head-section = Abschnitt
head-time = Zeit
head-clock = Uhr
head-waits = Wartezeiten
time-not-given = nicht angegeben
clock-from-to = { $from } bis { $to }
at-least = mindestens { $time }
and-waits = dazu Wartezeiten von { $waits }
waits-not-counted = Wartezeiten sind in diesen Zeiten nicht enthalten.
head-says-time = Im Kopf der Anleitung stehen { $time }.
safety-briefing = Sicherheitsunterweisung
briefing-says = Vor Beginn der Arbeit durchsprechen. Jeder Hinweis steht noch einmal vor seinem Schritt.
comes-up-at = Kommt vor bei Schritt
comes-up-at-steps = Kommt vor bei den Schritten
all-of-the-work = Gesamte Arbeit
holds-to-witness = Haltepunkte mit Unterschrift
holds-say = Ohne Unterschrift geht niemand über diese Schritte hinaus. Wer unterschreibt, führt die Arbeit nicht selbst aus.
teach = Lehrpunkt:
answer = Antwort:

## Assessment

assessment = Bewertung
assessment-of = Bewertung zu { $number }
assessment-title = { $number } { $title }, Bewertung
learner = Auszubildende Person
assessor = Prüfende Person
critical = Kritisch
critical-rule = Wird eine kritische Zeile nicht bestanden, ist das Ganze nicht bestanden.
how-to-assess = Beurteilen, was zu sehen ist, Schritt für Schritt. Die Arbeit anhalten, sobald jemand verletzt werden könnte. Streichen, was nicht für diese Maschine gilt.
number-short = Nr.
criterion = Kriterium
pass = Bestanden
not-yet = Noch nicht
safety = Sicherheit
obeys = { $hazard }:
waits-for = Wartet auf die Unterschrift ({ $role }).
fits-new = Baut neu ein: { $part }
tightens = Zieht an: { $what }
reads = Misst: { $what }
assessors-reading = Messwert der prüfenden Person
result = Ergebnis
passed = Bestanden
not-yet-passed = Noch nicht bestanden
result-rule = Bestanden: jede Zeile ist bestanden oder gestrichen. Noch nicht: angeben, was zu üben ist und wann erneut bewertet wird.
remarks = Bemerkungen

## Handouts and their answers

handout-edition = Arbeitsblatt: Werte nachschlagen
answers-edition = Lösungen
value-to-look-up = Wert zum Nachschlagen
looked-up = Nachgeschlagen:
answers-say = Für Ausbilder: was in den Lücken der Arbeitsblätter stehen soll.
of-what = Wovon
value = Wert
nothing-withheld = Die Arbeitsblätter haben keine Lücken.
handout = Arbeitsblatt
handout-of = Arbeitsblatt zu { $number }
handout-checklist = Checkliste zum Arbeitsblatt
handout-checklist-of = Checkliste zum Arbeitsblatt { $number }
answers = Lösungen
answers-of = Lösungen zum Arbeitsblatt { $number }

## What to lay out

only-if-faulty = neu nur bei Mangel
item = Pos. { $number }
item-in = Pos. { $number } in { $figure }
offset = Versatz { $length }
carries = trägt { $load }
comes-out-again = wird wieder entfernt
cures-in = härtet in { $time } aus
cures-in-at = härtet in { $time } bei { $temperature } aus
these-only = nur { $models }
serial-only = nur Seriennummer { $serial }
if-fitted = falls eingebaut

## Kit for several benches

kit-for =
    { $benches ->
        [one] Material für einen Arbeitsplatz
       *[other] Material für { $benches } Arbeitsplätze
    }
parts-to-order = Zu bestellende Teile
parts-to-have = Vorhandene Teile
protective-equipment = Schutzausrüstung
order-says = Werden neu eingebaut.
have-says = Sie sind an der Maschine und werden wieder verwendet.
tools-say = Die Arbeiten werden nacheinander ausgeführt: ein Arbeitsplatz braucht das Meiste, was eine von ihnen verlangt.
wear-says = Je eine für jede Person.
laid-out = Da
each-bench = Je Arbeitsplatz
in-all = Gesamt
pieces = Stück
what = Was
number = Nummer
for-procedures = Für

## Tightening values

head-fastener = Schraubteil
head-thread = Gewinde
head-on-the-thread = Am Gewinde
head-passes = Stufen
head-torque = Drehmoment
head-how = Wie
head-with = Mit
head-wrench-set-to = Einstellwert
head-source = Quelle
strength-class = Klasse { $class }
strength-grade = Grad { $grade }
dry = trocken
oiled = geölt
plated = beschichtet
finger-tight = fingerfest
hand-tight = handfest
snug = bis zur Anlage
at-angle = bei { $angle }
value-then = { $first }, dann { $then }
not-below = darf sich unter { $torque } nicht drehen
not-specified = nicht vorgegeben
turn-further = { $angle } weiterdrehen
loosen-to = lösen auf { $torque }
back-off = { $angle } zurückdrehen
stretch-to = bis { $length } Längung
while-doing = { $pass }, dabei: { $work }
if-new = neu: { $torque }
if-reused = wiederverwendet: { $torque }
add-running-torque = Klemmdrehmoment der Mutter messen und dazurechnen
align = ausrichten: { $feature }
align-by-tightening = durch Anziehen ausrichten: { $feature }
align-by-loosening = durch Lösen ausrichten: { $feature }
align-either-way = in beide Richtungen ausrichten: { $feature }
never-move-to-align = zum Ausrichten nie weiterdrehen
not-above = { $how }, nicht über { $torque }
crosswise = über Kreuz
clockwise = im Uhrzeigersinn
from-the-centre = von der Mitte nach außen
from-the-ends = von den Enden zur Mitte
in-the-order = in der Reihenfolge { $order }

## Drawings of fasteners

order-of-tightening = { $parts }: die Zahlen geben die Anziehreihenfolge an
order-of-loosening = { $parts }: die Zahlen geben die Lösereihenfolge an
own-order-of-tightening = { $parts }: die großen Zahlen geben die Anziehreihenfolge an, die kleinen sind die des Textes
own-order-of-loosening = { $parts }: die großen Zahlen geben die Lösereihenfolge an, die kleinen sind die des Textes
picture-on-the-page = Dieses Bild ist nur am Bildschirm zu sehen.
side-that-faces = { $parts }: die dicke Linie ist die Seite, die die Worte nennen
counted-on-circle = Von oben im Uhrzeigersinn gezählt, in der Reihenfolge { $order }
counted-in-line = Von links gezählt, in der Reihenfolge { $order }
counted-in-rows = Zeile für Zeile von oben links gezählt, in der Reihenfolge { $order }

## Checklist

checklist-title = { $number } { $title }, Checkliste
job = Auftrag
job-number = Auftragsnummer
serial-number = Seriennummer
date = Datum
technician = Fachkraft
model = Modell:
done-first = Zuvor erledigt:
done-afterwards = Danach erledigt:
booked = Vorgemerkt:
how-to-tick = Einen Schritt erst abhaken, wenn er erledigt ist, der Reihe nach. Aufschreiben, was abgelesen wurde, nicht was hätte abgelesen werden sollen. Im Zweifel anhalten und fragen.
sign-off = Abschluss
all-ticked = Jeder Schritt ist abgehakt oder als nicht für diese Maschine gestrichen; die Werkzeuge sind gezählt; der Arbeitsplatz ist sauber.
signature = Unterschrift
none-allowed = nicht zulässig
reading = Messwert
initials = { $role }, Namenszeichen
set-to = Eingestellt auf
part-set-to = { $part }, eingestellt auf
wrench-at = Drehmomentschlüssel auf { $torque }
of-step = Schritt { $step }: { $label }

## List of procedures

procedures = Anleitungen
procedures-of = Anleitungen von { $house }
general = Allgemein
checklist = Checkliste
checklist-of = Checkliste zu { $number }
instructor = Ausbilder
instructor-of = Ausgabe für Ausbilder von { $number }
kit = Materialliste
kit-of = Materialliste zu { $number }
no-procedures = Noch keine Anleitung hat Blätter.
last-good-sheet = letztes gültiges Blatt

## Hazard classes (terms of ISO 12100, from memory)

hazard-crushing = Quetschen
hazard-shearing = Scheren
hazard-cutting = Schneiden
hazard-entanglement = Erfassen oder Aufwickeln
hazard-drawing-in = Einziehen
hazard-impact = Stoß
hazard-stabbing = Durchstich
hazard-friction = Reibung
hazard-ejection = Herausschleudern
hazard-high-pressure = Hochdruck
hazard-stored-energy = Gespeicherte Energie
hazard-falling-load = Herabfallende Last
hazard-lifting = Heben
hazard-slip = Ausrutschen
hazard-electric-shock = Elektrischer Schlag
hazard-arc = Lichtbogen
hazard-burn = Verbrennung
hazard-scald = Verbrühung
hazard-fire = Feuer
hazard-explosion = Explosion
hazard-chemical = Chemikalie
hazard-asphyxiation = Ersticken
hazard-noise = Lärm
hazard-vibration = Vibration
hazard-dust = Staub
hazard-radiation = Strahlung
hazard-unexpected-start = Unerwarteter Anlauf
hazard-eye-injury = Augenverletzung
hazard-damage = Sachschaden
hazard-contamination = Verunreinigung
hazard-environment = Umwelt

## Protective equipment (meanings of the mandatory signs of ISO 7010, from memory)

wear-eye-protection = Augenschutz benutzen
wear-face-shield = Gesichtsschutz benutzen
wear-gloves = Schutzhandschuhe benutzen
wear-cut-gloves = Schnittschutzhandschuhe benutzen
wear-chemical-gloves = Chemikalienschutzhandschuhe benutzen
wear-heat-gloves = Hitzeschutzhandschuhe benutzen
wear-insulating-gloves = Isolierhandschuhe benutzen
wear-hearing-protection = Gehörschutz benutzen
wear-safety-footwear = Sicherheitsschuhe benutzen
wear-head-protection = Kopfschutz benutzen
wear-respirator = Atemschutz benutzen
wear-dust-mask = Staubmaske benutzen
wear-overalls = Eng anliegenden Schutzanzug tragen
wear-apron = Schürze tragen
wear-high-visibility-clothing = Warnkleidung tragen
wear-hair-net = Lange Haare zurückbinden oder abdecken
