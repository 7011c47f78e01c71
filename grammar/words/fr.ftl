# The words of en.ftl in French; its keys, in its order. Then the names of grammar/hazards.toml.
# A key says what the words are for. Keep each { $name }: something is put in there.
# A colon or semicolon keeps a narrow no-break space before it.

## Every sheet

revision = Révision
equipment = Équipement
models = Modèles
serial-numbers = Numéros de série
time = Temps
people = Personnes
approved = Approuvé
issued = Édité
foot-revision = Rév. { $revision }
page-of = Page { $page } sur { $pages }
no-replacement = Cette fiche ne remplace ni la formation, ni la documentation d’entretien en vigueur du constructeur, ni les règles locales, ni les travaux soumis à habilitation.
changed-since = Modifié depuis la révision { $revision }
new-since = Nouveau depuis la révision { $revision }
gone-since = Supprimé depuis la révision { $revision }
steps = Étapes
step = Étape
step-number = Étape { $number }
step-range = Étapes { $first } à { $last }
people-count =
    { $count ->
        [one] { $count } personne
       *[other] { $count } personnes
    }
again-holds = Les messages de sécurité de ces étapes s’appliquent de nouveau.

## Safety messages

# DANGER, AVERTISSEMENT, ATTENTION, AVIS: the words of ISO 3864-2 and ANSI Z535.6 in French use, from memory.
danger = Danger
warning = Avertissement
caution = Attention
notice = Avis
note = Remarque
harm = Ce qui peut arriver :
first-aid = Premiers secours :
hazard-sign = Risque : { $hazard }
holds-until = Valable jusqu’à la fin de l’étape { $step }.
holds-for-next = Valable pour les { $count } étapes suivantes, { $first } à { $last }.
holds-to-section-end = Valable jusqu’à la fin de cette section.
still-holds = Toujours valable :
at-step = (à l’étape { $step })

## Bench page

skip-to-steps = Aller aux étapes
contents = Sommaire
checklist-to-print = Liste de contrôle à imprimer
before-you-start = Avant de commencer
stop-if-in-doubt = { $open }En cas de doute, arrêter{ $close } et demander.
must-be-done = Doit être fait
have-ready-to-wear = Équipements à tenir prêts
lay-out = À préparer
parts-to-have-new = Pièces neuves à prévoir
tools = Outils
supplies = Consommables
other-parts = Autres pièces de ce travail
easily-mistaken = Faciles à confondre
figures = Figures
tightening-values = Valeurs de serrage
values-from = Valeurs tirées de :
sources = Sources :
where-they-differ = En cas d’écart avec les informations du constructeur, arrêter et demander.
afterwards = Ensuite
then-do = À faire ensuite
left-so = Laissé ainsi
falls-due-later = À faire plus tard
when-all-is-done = Quand tout est fait
closing-work = Compter les outils, nettoyer le poste, remplir et signer la { $open }liste de contrôle{ $close }.
open = Ouvrir :
see = Voir :
write-down = À noter :
later = Plus tard :
why = Pourquoi :
source = Source :
question = Question :
show-the-answer = Afficher la réponse

## Bench page, filled in

job-record = Relevé du travail
job-record-says = Remplir cette page pendant le travail. Ce qui est saisi reste sur cet appareil : enregistrer le relevé dans un fichier quand le travail est fini, ou quand une autre personne continue ailleurs.
machine-model = Modèle
choose-model = Choisir
done-of = { $done } étapes faites sur { $all }
kept-here = Conservé au fur et à mesure dans ce navigateur.
not-kept = Ce navigateur ne conserve rien : enregistrer le relevé avant de fermer la page.
save-record = Enregistrer le relevé
print-page = Imprimer
start-afresh = Recommencer
really-afresh = Tout ce qui est saisi sur cette page sera perdu. Recommencer ?
step-done-in = Étape { $step } faite
not-for-this = Pas pour cette machine
fill-job-first = Remplir d'abord le relevé du travail, en haut.
locked-by = Verrouillé jusqu'à ce que l'étape { $step } soit signée et faite.
signed-after = L'étape { $step } est signée. Pour modifier ceci, retirer cette signature.
stopped-at = Le travail s'est arrêté à l'étape { $step }.
skipped-at = Sautée après l'étape { $step }.
not-for-model = Pas pour { $model }.
came-out-otherwise = À ne pas faire : l'étape { $step } a donné un autre résultat.
fill-in-first = À remplir : { $what }.
no-figure = Écrire des chiffres, avec un point ou une virgule.
within-limits = Dans les limites.
below-limits = Au-dessous de { $limits }.
above-limits = Au-dessus de { $limits }.
out-of-limits = Une valeur est hors limites : faire ce que l'étape dit pour ce cas.
set-again = Arrêt : ne pas continuer avec cette valeur.
outcome-so = C'était ainsi, et c'est fait
method-used = Cette méthode a été utilisée
choose-one = Cocher la méthode utilisée.
do-again = Refaire
again-first = Refaire, et saisir les nouvelles valeurs.
read-before = Avant : { $values }.
no-more = Refait aussi souvent que permis. Arrêter et demander.
unit-of = Unité de { $what }
signature-of = Nom ({ $role })
sign = Signer
sign-first = À signer : { $role }.
signed-by = Signé par { $name }, { $time }
take-back = Retirer
earlier-first = Faire d'abord l'étape { $step }.
not-own-work = Qui a fait le travail ne le signe pas.

## Instructor's edition

instructors-edition = Édition du formateur
timing = Minutage
head-section = Section
head-time = Temps
head-clock = Horloge
head-waits = Attentes
time-not-given = non indiqué
clock-from-to = { $from } à { $to }
at-least = au moins { $time }
and-waits = plus des attentes de { $waits }
waits-not-counted = Les attentes ne sont pas comprises dans ces temps.
head-says-time = L’en-tête de la procédure indique { $time }.
safety-briefing = Consignes de sécurité
briefing-says = À passer en revue avant le début du travail. Chaque message revient avant son étape.
comes-up-at = Concerne l’étape
comes-up-at-steps = Concerne les étapes
all-of-the-work = Tout le travail
holds-to-witness = Points d’arrêt à contresigner
holds-say = Personne ne dépasse ces étapes sans la signature. Celui qui signe n’est pas celui qui exécute.
teach = À enseigner :
answer = Réponse :

## Assessment

assessment = Évaluation
assessment-of = Évaluation de { $number }
assessment-title = { $number } { $title }, évaluation
learner = Apprenti
assessor = Évaluateur
critical = Critique
critical-rule = Une seule ligne critique non réussie, et l’ensemble n’est pas réussi.
how-to-assess = Juger ce qui est vu, étape par étape. Arrêter le travail si quelqu’un risque d’être blessé. Rayer ce qui ne concerne pas cette machine.
number-short = N°
criterion = Critère
pass = Réussi
not-yet = Pas encore
safety = Sécurité
obeys = { $hazard } :
waits-for = Attend la signature ({ $role }).
fits-new = Monte une pièce neuve : { $part }
tightens = Serre : { $what }
reads = Mesure : { $what }
assessors-reading = Mesure de l’évaluateur
result = Résultat
passed = Réussi
not-yet-passed = Pas encore réussi
result-rule = Réussi : chaque ligne est réussie ou rayée. Pas encore : dire ce qui est à travailler et quand l’évaluation est reprise.
remarks = Observations

## Handouts and their answers

handout-edition = Feuille de travail : rechercher les valeurs
answers-edition = Corrigé
value-to-look-up = valeur à rechercher
looked-up = Trouvé :
answers-say = Pour le formateur : ce que remplacent les blancs des feuilles de travail.
of-what = De quoi
value = Valeur
nothing-withheld = Les feuilles de travail n’ont pas de blancs.
handout = Feuille de travail
handout-of = Feuille de travail de { $number }
handout-checklist = Liste de contrôle de travail
handout-checklist-of = Liste de contrôle de travail de { $number }
answers = Corrigé
answers-of = Corrigé de la feuille de travail de { $number }

## What to lay out

only-if-faulty = neuf seulement en cas de défaut
item = repère { $number }
item-in = repère { $number } dans { $figure }
offset = déport { $length }
carries = porte { $load }
comes-out-again = à retirer ensuite
cures-in = durcit en { $time }
cures-in-at = durcit en { $time } à { $temperature }
these-only = { $models } seulement
serial-only = n° de série { $serial } seulement
if-fitted = si monté

## Kit for several benches

kit-for =
    { $benches ->
        [one] Matériel pour un poste
       *[other] Matériel pour { $benches } postes
    }
parts-to-order = Pièces à commander
parts-to-have = Pièces à avoir
protective-equipment = Équipements de protection
order-says = Montées neuves.
have-says = Elles sont sur la machine et resservent.
tools-say = Les procédures se font l’une après l’autre : un poste a besoin du maximum que demande l’une d’elles.
wear-says = Un pour chaque personne.
laid-out = Prêt
each-bench = Par poste
in-all = Total
pieces = Nombre
what = Quoi
number = Numéro
for-procedures = Pour

## Tightening values

head-fastener = Fixation
head-thread = Filetage
head-on-the-thread = Sur le filetage
head-passes = Passes
head-torque = Couple
head-how = Comment
head-with = Avec
head-wrench-set-to = Clé réglée à
head-source = Source
strength-class = classe { $class }
strength-grade = grade { $grade }
dry = sec
oiled = huilé
plated = revêtu
finger-tight = serré du bout des doigts
hand-tight = serré à la main
snug = jusqu’au contact
at-angle = à { $angle }
value-then = { $first }, puis { $then }
not-below = ne doit pas tourner en dessous de { $torque }
not-specified = non spécifié
turn-further = tourner encore de { $angle }
loosen-to = desserrer jusqu’à { $torque }
back-off = dévisser de { $angle }
stretch-to = allonger jusqu’à { $length }
while-doing = { $pass }, en même temps : { $work }
if-new = neuf : { $torque }
if-reused = réutilisé : { $torque }
add-running-torque = mesurer le couple de freinage de l’écrou et l’ajouter
align = aligner { $feature }
align-by-tightening = aligner { $feature } en serrant
align-by-loosening = aligner { $feature } en desserrant
align-either-way = aligner { $feature } dans un sens ou dans l’autre
never-move-to-align = ne jamais le tourner pour aligner
not-above = { $how }, sans dépasser { $torque }
crosswise = en croix
clockwise = dans le sens horaire
from-the-centre = du centre vers l’extérieur
from-the-ends = des extrémités vers le centre
in-the-order = dans l’ordre { $order }

## Drawings of fasteners

order-of-tightening = { $parts } : les numéros donnent l’ordre de serrage
order-of-loosening = { $parts } : les numéros donnent l’ordre de desserrage
own-order-of-tightening = { $parts } : les grands numéros donnent l’ordre de serrage, les petits sont ceux du texte
own-order-of-loosening = { $parts } : les grands numéros donnent l’ordre de desserrage, les petits sont ceux du texte
picture-on-the-page = Cette image n’est visible qu’à l’écran.
side-that-faces = { $parts } : le trait épais est le côté que nomment les mots
counted-on-circle = Comptés dans le sens horaire à partir du haut, dans l’ordre { $order }
counted-in-line = Comptés à partir de la gauche, dans l’ordre { $order }
counted-in-rows = Comptés rangée par rangée à partir du haut à gauche, dans l’ordre { $order }

## Checklist

checklist-title = { $number } { $title }, liste de contrôle
job = Intervention
job-number = Numéro d’intervention
serial-number = Numéro de série
date = Date
technician = Technicien
model = Modèle :
done-first = Fait avant :
done-afterwards = Fait après :
booked = Planifié :
how-to-tick = Cocher une étape seulement quand elle est faite, dans l’ordre. Noter ce qui a été lu, et non ce qui aurait dû l’être. En cas de doute, arrêter et demander.
sign-off = Clôture
all-ticked = Chaque étape est cochée ou rayée comme ne concernant pas cette machine ; les outils sont comptés ; le poste est propre.
signature = Signature
none-allowed = aucun n’est admis
reading = Mesure
initials = { $role }, visa
set-to = Réglé à
part-set-to = { $part }, réglé à
wrench-at = clé à { $torque }
of-step = Étape { $step } : { $label }

## List of procedures

procedures = Procédures
procedures-of = Procédures de { $house }
general = Général
checklist = Liste de contrôle
checklist-of = Liste de contrôle de { $number }
instructor = Formateur
instructor-of = Édition du formateur de { $number }
kit = Liste de matériel
kit-of = Liste de matériel de { $number }
no-procedures = Aucune procédure n’a encore de fiches.
last-good-sheet = dernière fiche valable

## Hazard classes (terms of ISO 12100, from memory)

hazard-crushing = Écrasement
hazard-shearing = Cisaillement
hazard-cutting = Coupure
hazard-entanglement = Happement
hazard-drawing-in = Entraînement
hazard-impact = Choc
hazard-stabbing = Perforation
hazard-friction = Frottement
hazard-ejection = Éjection
hazard-high-pressure = Haute pression
hazard-stored-energy = Énergie accumulée
hazard-falling-load = Chute de charge
hazard-lifting = Levage
hazard-slip = Glissade
hazard-electric-shock = Choc électrique
hazard-arc = Arc électrique
hazard-burn = Brûlure
hazard-scald = Brûlure par liquide ou vapeur
hazard-fire = Incendie
hazard-explosion = Explosion
hazard-chemical = Produit chimique
hazard-asphyxiation = Asphyxie
hazard-noise = Bruit
hazard-vibration = Vibrations
hazard-dust = Poussière
hazard-radiation = Rayonnement
hazard-unexpected-start = Démarrage intempestif
hazard-eye-injury = Lésion oculaire
hazard-damage = Dommage matériel
hazard-contamination = Pollution interne
hazard-environment = Environnement

## Protective equipment (meanings of the mandatory signs of ISO 7010, from memory)

wear-eye-protection = Porter une protection oculaire
wear-face-shield = Porter une visière
wear-gloves = Porter des gants de protection
wear-cut-gloves = Porter des gants anticoupure
wear-chemical-gloves = Porter des gants résistant aux produits chimiques
wear-heat-gloves = Porter des gants résistant à la chaleur
wear-insulating-gloves = Porter des gants isolants
wear-hearing-protection = Porter une protection auditive
wear-safety-footwear = Porter des chaussures de sécurité
wear-head-protection = Porter une protection de la tête
wear-respirator = Porter une protection respiratoire
wear-dust-mask = Porter un masque antipoussière
wear-overalls = Porter une combinaison ajustée
wear-apron = Porter un tablier
wear-high-visibility-clothing = Porter des vêtements haute visibilité
wear-hair-net = Attacher ou couvrir les cheveux longs
