# What sheets print besides the sentences of steps: labels, headings, signal words, fixed phrases.
# A key says what the words are for. Keep each { $name }: something is put in there.

## Every sheet

revision = Revision
equipment = Equipment
models = Models
serial-numbers = Serial numbers
time = Time
people = People
approved = Approved
issued = Issued
foot-revision = Rev. { $revision }
page-of = Page { $page } of { $pages }
no-replacement = This sheet does not replace training, the maker's current service information, local codes, or work that takes a licence.
changed-since = Changed since revision { $revision }
new-since = New since revision { $revision }
gone-since = No longer here since revision { $revision }
steps = Steps
step = Step
step-number = Step { $number }
step-range = Steps { $first } to { $last }
people-count =
    { $count ->
        [one] { $count } person
       *[other] { $count } people
    }
again-holds = The safety messages of those steps hold again.

## Safety messages

danger = Danger
warning = Warning
caution = Caution
notice = Notice
note = Note
harm = What can happen:
first-aid = First aid:
hazard-sign = Hazard: { $hazard }
holds-until = Holds until step { $step } is done.
holds-for-next = Holds for the next { $count } steps, { $first } to { $last }.
holds-to-section-end = Holds to the end of this section.
still-holds = Still holds:
at-step = (at step { $step })

## Bench page

skip-to-steps = Skip to the steps
contents = Contents
checklist-to-print = Checklist to print
before-you-start = Before you start
stop-if-in-doubt = { $open }Stop if in doubt{ $close } and ask.
must-be-done = Must be done
have-ready-to-wear = Have ready to wear
lay-out = Lay out
parts-to-have-new = Parts to have new
tools = Tools
supplies = Supplies
other-parts = Other parts in this work
easily-mistaken = Easily mistaken
figures = Figures
tightening-values = Tightening values
values-from = Values from:
sources = Sources:
where-they-differ = Where it and the maker's information differ, stop and ask.
afterwards = Afterwards
then-do = Then do
left-so = Left so
falls-due-later = Falls due later
when-all-is-done = When all is done
closing-work = Count the tools, clean the bench, and fill in and sign the { $open }checklist{ $close }.
open = Open:
see = See:
write-down = Write down:
later = Later:
why = Why:
source = Source:
question = Question:
show-the-answer = Show the answer

## Bench page, filled in

job-record = Job record
job-record-says = Fill this page in as you work. What you fill in stays on this device: save the record as a file when the work is done, or when somebody else goes on elsewhere.
machine-model = Model
choose-model = Choose
done-of = { $done } of { $all } steps done
kept-here = Kept in this browser as you go.
not-kept = This browser keeps nothing: save the record before you close the page.
save-record = Save the record
print-page = Print
start-afresh = Start afresh
really-afresh = Everything that is filled in on this page will be gone. Start afresh?
step-done-in = Step { $step } done
not-for-this = Not for this machine
fill-job-first = Fill in the job record on top first.
locked-by = Locked until step { $step } is signed and done.
signed-after = Step { $step } is signed. To change this, take that signature back.
stopped-at = The work ended at step { $step }.
skipped-at = Skipped after step { $step }.
not-for-model = Not for { $model }.
came-out-otherwise = Not to be done: step { $step } came out otherwise.
fill-in-first = To fill in: { $what }.
no-figure = Write figures, with a decimal point or comma.
within-limits = Within limits.
below-limits = Below { $limits }.
above-limits = Above { $limits }.
out-of-limits = A value is out of limits: do what the step says for that case.
set-again = Stop: do not go on with this value.
outcome-so = This was so, and it is done
method-used = This method was used
choose-one = Tick the method that is used.
do-again = Do it again
again-first = Do it again, and fill in the new values.
read-before = Before: { $values }.
no-more = It was done again as often as is allowed. Stop and ask.
unit-of = Unit of { $what }
signature-of = Name ({ $role })
sign = Sign
sign-first = To sign: { $role }.
signed-by = Signed by { $name }, { $time }
take-back = Take back
earlier-first = First do step { $step }.
not-own-work = Who did the work does not sign for it.

## Instructor's edition

instructors-edition = Instructor's edition
timing = Timing
head-section = Section
head-time = Time
head-clock = Clock
head-waits = Waits
time-not-given = not given
clock-from-to = { $from } to { $to }
at-least = at least { $time }
and-waits = and waits of { $waits }
waits-not-counted = Waits are not counted in these times.
head-says-time = The head of the procedure says { $time }.
safety-briefing = Safety briefing
briefing-says = Go through these before the work starts. Each stands again before its step.
comes-up-at = Comes up at step
comes-up-at-steps = Comes up at steps
all-of-the-work = All of the work
holds-to-witness = Holds to witness
holds-say = Nobody passes these steps without the signature. Who signs is not who does the work.
teach = Teach:
answer = Answer:

## Assessment

assessment = Assessment
assessment-of = Assessment of { $number }
assessment-title = { $number } { $title }, assessment
learner = Learner
assessor = Assessor
critical = Critical
critical-rule = One critical line that is not passed, and the whole is not passed.
how-to-assess = Judge what you see, step by step. Stop the work where somebody could be hurt. Strike out what is not for this machine.
number-short = No.
criterion = Criterion
pass = Pass
not-yet = Not yet
safety = Safety
obeys = { $hazard }:
waits-for = Waits for the signature ({ $role }).
fits-new = Fits new: { $part }
tightens = Tightens: { $what }
reads = Measures: { $what }
assessors-reading = Assessor's reading
result = Result
passed = Passed
not-yet-passed = Not yet passed
result-rule = Passed: every line is passed or struck out. Not yet: say what is to be practised, and when it is assessed again.
remarks = Remarks

## Handouts and their answers

handout-edition = Handout: look the values up
answers-edition = Answers
value-to-look-up = value to look up
looked-up = Looked up:
answers-say = For the instructor: what the blanks of the handouts stand for.
of-what = Of what
value = Value
nothing-withheld = The handouts have no blanks.
handout = Handout
handout-of = Handout of { $number }
handout-checklist = Handout checklist
handout-checklist-of = Handout checklist of { $number }
answers = Answers
answers-of = Answers to the handout of { $number }

## What to lay out

only-if-faulty = new one only if found faulty
item = item { $number }
item-in = item { $number } in { $figure }
offset = offset { $length }
carries = carries { $load }
comes-out-again = comes out again
cures-in = cures in { $time }
cures-in-at = cures in { $time } at { $temperature }
these-only = { $models } only
serial-only = serial { $serial } only
if-fitted = if fitted

## Kit for several benches

kit-for =
    { $benches ->
        [one] Kit for one bench
       *[other] Kit for { $benches } benches
    }
parts-to-order = Parts to order
parts-to-have = Parts to have
protective-equipment = Protective equipment
order-says = Fitted new.
have-says = They lie on the machine and are used again.
tools-say = The procedures are done one after the other: a bench needs the most that one of them asks for.
wear-says = One for each person.
laid-out = There
each-bench = A bench
in-all = In all
pieces = Pieces
what = What
number = Number
for-procedures = For

## Tightening values

head-fastener = Fastener
head-thread = Thread
head-on-the-thread = On the thread
head-passes = Passes
head-torque = Torque
head-how = How
head-with = With
head-wrench-set-to = Wrench set to
head-source = Source
strength-class = class { $class }
strength-grade = grade { $grade }
dry = dry
oiled = oiled
plated = plated
finger-tight = finger tight
hand-tight = hand tight
snug = snug
at-angle = at { $angle }
value-then = { $first }, then { $then }
not-below = must not turn below { $torque }
not-specified = not specified
turn-further = turn { $angle } further
loosen-to = loosen to { $torque }
back-off = back off { $angle }
stretch-to = stretch to { $length }
while-doing = { $pass } while { $work }
if-new = new: { $torque }
if-reused = reused: { $torque }
add-running-torque = measure the running torque of the nut and add it
align = align the { $feature }
align-by-tightening = align the { $feature } by tightening
align-by-loosening = align the { $feature } by loosening
align-either-way = align the { $feature } either way
never-move-to-align = never move it to align
not-above = { $how }, not above { $torque }
crosswise = crosswise
clockwise = clockwise
from-the-centre = from the centre outwards
from-the-ends = from the ends to the centre
in-the-order = in the order { $order }

## Drawings of fasteners

order-of-tightening = { $parts }: the numbers give the order of tightening
order-of-loosening = { $parts }: the numbers give the order of loosening
own-order-of-tightening = { $parts }: the large numbers give the order of tightening, the small ones are those of the text
own-order-of-loosening = { $parts }: the large numbers give the order of loosening, the small ones are those of the text
picture-on-the-page = This picture is shown on the screen only.
side-that-faces = { $parts }: the thick line is the side that the words name
counted-on-circle = Counted clockwise from the top, in the order { $order }
counted-in-line = Counted from the left, in the order { $order }
counted-in-rows = Counted row by row from the top left, in the order { $order }

## Checklist

checklist-title = { $number } { $title }, checklist
job = Job
job-number = Job number
serial-number = Serial number
date = Date
technician = Technician
model = Model:
done-first = Done first:
done-afterwards = Done afterwards:
booked = Booked:
how-to-tick = Tick a step only when it is done, in order. Write what was read, not what should have been read. Stop if in doubt and ask.
sign-off = Sign-off
all-ticked = Every step is ticked or struck out as not for this machine; tools are counted; the bench is clean.
signature = Signature
none-allowed = none allowed
reading = Reading
initials = { $role }, initials
set-to = Set to
part-set-to = { $part }, set to
wrench-at = wrench at { $torque }
of-step = Step { $step }: { $label }

## List of procedures

procedures = Procedures
procedures-of = Procedures of { $house }
general = General
checklist = Checklist
checklist-of = Checklist of { $number }
instructor = Instructor
instructor-of = Instructor's edition of { $number }
kit = Kit
kit-of = Kit of { $number }
no-procedures = No procedures have sheets yet.
last-good-sheet = last good sheet
