# The words of en.ftl in Spanish; its keys, in its order. Then the names of grammar/hazards.toml.
# A key says what the words are for. Keep each { $name }: something is put in there.

## Every sheet

revision = Revisión
equipment = Equipo
models = Modelos
serial-numbers = Números de serie
time = Tiempo
people = Personas
approved = Aprobado
issued = Emitido
foot-revision = Rev. { $revision }
page-of = Página { $page } de { $pages }
no-replacement = Esta hoja no sustituye la formación, la información de servicio vigente del fabricante, las normas locales ni los trabajos que exigen licencia.
changed-since = Cambiado desde la revisión { $revision }
new-since = Nuevo desde la revisión { $revision }
gone-since = Ya no está desde la revisión { $revision }
steps = Pasos
step = Paso
step-number = Paso { $number }
step-range = Pasos { $first } a { $last }
people-count =
    { $count ->
        [one] { $count } persona
       *[other] { $count } personas
    }
again-holds = Los mensajes de seguridad de esos pasos vuelven a valer.

## Safety messages

# PELIGRO, ADVERTENCIA, ATENCIÓN, AVISO: the words of ISO 3864-2 and ANSI Z535.6 in Spanish use, from memory.
danger = Peligro
warning = Advertencia
caution = Precaución
notice = Aviso
note = Nota
harm = Qué puede ocurrir:
first-aid = Primeros auxilios:
hazard-sign = Riesgo: { $hazard }
holds-until = Vale hasta terminar el paso { $step }.
holds-for-next = Vale para los { $count } pasos siguientes, { $first } a { $last }.
holds-to-section-end = Vale hasta el final de esta sección.
still-holds = Sigue valiendo:
at-step = (en el paso { $step })

## Bench page

skip-to-steps = Saltar a los pasos
contents = Contenido
checklist-to-print = Lista de control para imprimir
before-you-start = Antes de empezar
stop-if-in-doubt = { $open }En caso de duda, parar{ $close } y preguntar.
must-be-done = Debe estar hecho
have-ready-to-wear = Tener preparado para ponerse
lay-out = Preparar
parts-to-have-new = Piezas nuevas necesarias
tools = Herramientas
supplies = Consumibles
other-parts = Otras piezas de este trabajo
easily-mistaken = Fácil de confundir
figures = Figuras
tightening-values = Valores de apriete
values-from = Valores de:
sources = Fuentes:
where-they-differ = Si difiere de la información del fabricante, parar y preguntar.
afterwards = Después
then-do = Hacer a continuación
left-so = Queda así
falls-due-later = Pendiente para más tarde
when-all-is-done = Cuando todo esté hecho
closing-work = Contar las herramientas, limpiar el banco, rellenar y firmar la { $open }lista de control{ $close }.
open = Abrir:
see = Véase:
write-down = Anotar:
later = Más tarde:
why = Por qué:
source = Fuente:
question = Pregunta:
show-the-answer = Mostrar la respuesta

## Bench page, filled in

job-record = Registro del trabajo
job-record-says = Rellene esta página mientras trabaja. Lo que escriba queda en este dispositivo: guarde el registro como archivo cuando termine el trabajo o cuando otra persona siga en otro lugar.
machine-model = Modelo
choose-model = Elegir
done-of = { $done } de { $all } pasos hechos
kept-here = Se conserva en este navegador a medida que avanza.
not-kept = Este navegador no conserva nada: guarde el registro antes de cerrar la página.
save-record = Guardar el registro
print-page = Imprimir
start-afresh = Empezar de nuevo
really-afresh = Se perderá todo lo escrito en esta página. ¿Empezar de nuevo?
step-done-in = Paso { $step } hecho
not-for-this = No es para esta máquina
fill-job-first = Rellene primero el registro del trabajo, arriba.
locked-by = Bloqueado hasta que el paso { $step } esté firmado y hecho.
signed-after = El paso { $step } está firmado. Para cambiar esto, retire esa firma.
stopped-at = El trabajo terminó en el paso { $step }.
skipped-at = Omitido tras el paso { $step }.
not-for-model = No es para { $model }.
came-out-otherwise = No se hace: el paso { $step } resultó de otro modo.
fill-in-first = Falta rellenar: { $what }.
no-figure = Escriba cifras, con punto o coma decimal.
within-limits = Dentro de los límites.
below-limits = Por debajo de { $limits }.
above-limits = Por encima de { $limits }.
out-of-limits = Un valor está fuera de los límites: haga lo que el paso dice para ese caso.
set-again = Alto: no siga con este valor.
outcome-so = Fue así, y está hecho
method-used = Se usó este método
choose-one = Marque el método usado.
do-again = Hacerlo otra vez
again-first = Hágalo otra vez y escriba los valores nuevos.
read-before = Antes: { $values }.
no-more = Se repitió tantas veces como está permitido. Deténgase y pregunte.
unit-of = Unidad de { $what }
signature-of = Nombre ({ $role })
sign = Firmar
sign-first = Falta la firma: { $role }.
signed-by = Firmado por { $name }, { $time }
take-back = Retirar
earlier-first = Haga primero el paso { $step }.
not-own-work = Quien hizo el trabajo no lo firma.

## Instructor's edition

instructors-edition = Edición del instructor
timing = Tiempos
head-section = Sección
head-time = Tiempo
head-clock = Reloj
head-waits = Esperas
time-not-given = no indicado
clock-from-to = { $from } a { $to }
at-least = al menos { $time }
and-waits = más esperas de { $waits }
waits-not-counted = Las esperas no están incluidas en estos tiempos.
head-says-time = La cabecera del procedimiento indica { $time }.
safety-briefing = Charla de seguridad
briefing-says = Repasar antes de empezar el trabajo. Cada mensaje aparece de nuevo antes de su paso.
comes-up-at = Aparece en el paso
comes-up-at-steps = Aparece en los pasos
all-of-the-work = Todo el trabajo
holds-to-witness = Puntos de parada con firma
holds-say = Nadie pasa de estos pasos sin la firma. Quien firma no es quien hace el trabajo.
teach = Enseñar:
answer = Respuesta:

## Assessment

assessment = Evaluación
assessment-of = Evaluación de { $number }
assessment-title = { $number } { $title }, evaluación
learner = Aprendiz
assessor = Evaluador
critical = Crítico
critical-rule = Si no se supera una línea crítica, no se supera el conjunto.
how-to-assess = Juzgar lo que se ve, paso a paso. Parar el trabajo si alguien puede hacerse daño. Tachar lo que no es de esta máquina.
number-short = N.º
criterion = Criterio
pass = Superado
not-yet = Aún no
safety = Seguridad
obeys = { $hazard }:
waits-for = Espera la firma ({ $role }).
fits-new = Monta pieza nueva: { $part }
tightens = Aprieta: { $what }
reads = Mide: { $what }
assessors-reading = Lectura del evaluador
result = Resultado
passed = Superado
not-yet-passed = Aún no superado
result-rule = Superado: cada línea está superada o tachada. Aún no: indicar qué se debe practicar y cuándo se evalúa de nuevo.
remarks = Observaciones

## Handouts and their answers

handout-edition = Hoja de trabajo: buscar los valores
answers-edition = Soluciones
value-to-look-up = valor que buscar
looked-up = Consultado:
answers-say = Para el instructor: lo que corresponde a los huecos de las hojas de trabajo.
of-what = De qué
value = Valor
nothing-withheld = Las hojas de trabajo no tienen huecos.
handout = Hoja de trabajo
handout-of = Hoja de trabajo de { $number }
handout-checklist = Lista de control de trabajo
handout-checklist-of = Lista de control de trabajo de { $number }
answers = Soluciones
answers-of = Soluciones de la hoja de trabajo de { $number }

## What to lay out

only-if-faulty = nuevo solo si se halla defectuoso
item = pos. { $number }
item-in = pos. { $number } en { $figure }
offset = desplazamiento { $length }
carries = soporta { $load }
comes-out-again = se retira al final
cures-in = cura en { $time }
cures-in-at = cura en { $time } a { $temperature }
these-only = solo { $models }
serial-only = solo n.º de serie { $serial }
if-fitted = si está montado

## Kit for several benches

kit-for =
    { $benches ->
        [one] Material para un banco
       *[other] Material para { $benches } bancos
    }
parts-to-order = Piezas que pedir
parts-to-have = Piezas que tener
protective-equipment = Equipo de protección
order-says = Se montan nuevas.
have-says = Están en la máquina y se vuelven a usar.
tools-say = Los procedimientos se hacen uno tras otro: un banco necesita lo máximo que pide uno de ellos.
wear-says = Uno para cada persona.
laid-out = Listo
each-bench = Por banco
in-all = Total
pieces = Piezas
what = Qué
number = Número
for-procedures = Para

## Tightening values

head-fastener = Fijación
head-thread = Rosca
head-on-the-thread = En la rosca
head-passes = Etapas
head-torque = Par
head-how = Cómo
head-with = Con
head-wrench-set-to = Llave ajustada a
head-source = Fuente
strength-class = clase { $class }
strength-grade = grado { $grade }
dry = seco
oiled = aceitado
plated = recubierto
finger-tight = apretado con los dedos
hand-tight = apretado a mano
snug = hasta que asiente
at-angle = a { $angle }
value-then = { $first }, luego { $then }
not-below = no debe girar por debajo de { $torque }
not-specified = no especificado
turn-further = girar { $angle } más
loosen-to = aflojar hasta { $torque }
back-off = retroceder { $angle }
stretch-to = estirar hasta { $length }
while-doing = { $pass }, al mismo tiempo: { $work }
if-new = nuevo: { $torque }
if-reused = reutilizado: { $torque }
add-running-torque = medir el par de frenado de la tuerca y sumarlo
align = alinear { $feature }
align-by-tightening = alinear { $feature } apretando
align-by-loosening = alinear { $feature } aflojando
align-either-way = alinear { $feature } en cualquier sentido
never-move-to-align = no girarlo nunca para alinear
not-above = { $how }, sin superar { $torque }
crosswise = en cruz
clockwise = en sentido horario
from-the-centre = del centro hacia fuera
from-the-ends = de los extremos al centro
in-the-order = en el orden { $order }

## Drawings of fasteners

order-of-tightening = { $parts }: los números dan el orden de apriete
order-of-loosening = { $parts }: los números dan el orden de aflojado
own-order-of-tightening = { $parts }: los números grandes dan el orden de apriete, los pequeños son los del texto
own-order-of-loosening = { $parts }: los números grandes dan el orden de aflojado, los pequeños son los del texto
picture-on-the-page = Esta imagen solo se ve en pantalla.
side-that-faces = { $parts }: la línea gruesa es el lado que nombran las palabras
counted-on-circle = Contados en sentido horario desde arriba, en el orden { $order }
counted-in-line = Contados desde la izquierda, en el orden { $order }
counted-in-rows = Contados fila por fila desde arriba a la izquierda, en el orden { $order }

## Checklist

checklist-title = { $number } { $title }, lista de control
job = Trabajo
job-number = Número de trabajo
serial-number = Número de serie
date = Fecha
technician = Técnico
model = Modelo:
done-first = Hecho antes:
done-afterwards = Hecho después:
booked = Programado:
how-to-tick = Marcar un paso solo cuando esté hecho, en orden. Anotar lo que se leyó, no lo que debería haberse leído. En caso de duda, parar y preguntar.
sign-off = Cierre
all-ticked = Cada paso está marcado o tachado por no ser de esta máquina; las herramientas están contadas; el banco está limpio.
signature = Firma
none-allowed = no se admite ninguno
reading = Lectura
initials = { $role }, iniciales
set-to = Ajustado a
part-set-to = { $part }, ajustado a
wrench-at = llave a { $torque }
of-step = Paso { $step }: { $label }

## List of procedures

procedures = Procedimientos
procedures-of = Procedimientos de { $house }
general = General
checklist = Lista de control
checklist-of = Lista de control de { $number }
instructor = Instructor
instructor-of = Edición del instructor de { $number }
kit = Lista de material
kit-of = Lista de material de { $number }
no-procedures = Ningún procedimiento tiene hojas todavía.
last-good-sheet = última hoja válida

## Hazard classes (terms of ISO 12100, from memory)

hazard-crushing = Aplastamiento
hazard-shearing = Cizallamiento
hazard-cutting = Corte
hazard-entanglement = Enganche
hazard-drawing-in = Arrastre
hazard-impact = Impacto
hazard-stabbing = Punzonamiento
hazard-friction = Fricción
hazard-ejection = Proyección
hazard-high-pressure = Alta presión
hazard-stored-energy = Energía acumulada
hazard-falling-load = Caída de carga
hazard-lifting = Levantamiento
hazard-slip = Resbalón
hazard-electric-shock = Choque eléctrico
hazard-arc = Arco eléctrico
hazard-burn = Quemadura
hazard-scald = Escaldadura
hazard-fire = Incendio
hazard-explosion = Explosión
hazard-chemical = Producto químico
hazard-asphyxiation = Asfixia
hazard-noise = Ruido
hazard-vibration = Vibración
hazard-dust = Polvo
hazard-radiation = Radiación
hazard-unexpected-start = Arranque inesperado
hazard-eye-injury = Lesión ocular
hazard-damage = Daños materiales
hazard-contamination = Contaminación
hazard-environment = Medio ambiente

## Protective equipment (meanings of the mandatory signs of ISO 7010, from memory)

wear-eye-protection = Usar protección ocular
wear-face-shield = Usar pantalla facial
wear-gloves = Usar guantes de protección
wear-cut-gloves = Usar guantes resistentes al corte
wear-chemical-gloves = Usar guantes resistentes a productos químicos
wear-heat-gloves = Usar guantes resistentes al calor
wear-insulating-gloves = Usar guantes aislantes
wear-hearing-protection = Usar protección auditiva
wear-safety-footwear = Usar calzado de seguridad
wear-head-protection = Usar protección para la cabeza
wear-respirator = Usar protección respiratoria
wear-dust-mask = Usar mascarilla antipolvo
wear-overalls = Usar mono de trabajo ajustado
wear-apron = Usar delantal
wear-high-visibility-clothing = Usar ropa de alta visibilidad
wear-hair-net = Recoger o cubrir el pelo largo
