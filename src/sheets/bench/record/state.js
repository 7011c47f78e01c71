// What has been filled in, and what the procedure lets be filled in next. Knows nothing of the page.
const KEY = `cotter-record/1/${plan.number}/${plan.revision}/${plan.source}`;
const stepOf = new Map(plan.steps.map((step) => [step.step, step]));
const empty = () => ({
    job: { number: '', serial: '', technician: '', model: plan.models.length === 1 ? plan.models[0] : '' },
    started: '',
    steps: {},
});
let state = empty();
let kept = true;

const now = () => new Date().toISOString().slice(0, 19) + 'Z';
const clean = (text) => text.trim().replace(/\p{Surrogate}/gu, '\ufffd');

function load() {
    try {
        const read = JSON.parse(localStorage.getItem(KEY));
        if (read && read.job && read.steps) state = { ...empty(), ...read };
    } catch {
        kept = false;
    }
}

function keep() {
    if (!state.started) state.started = now();
    try {
        localStorage.setItem(KEY, JSON.stringify(state));
        kept = true;
    } catch {
        kept = false;
    }
}

function forget() {
    state = empty();
    try {
        localStorage.removeItem(KEY);
    } catch {
        kept = false;
    }
}

const keyOf = (turn) => `${turn.step}|${turn.round}`;
const blank = () => ({ done: '', off: '', values: {}, taken: {}, holds: {}, earlier: [] });
const entry = (turn) => state.steps[keyOf(turn)] ?? blank();

/** Changes one entry and keeps it. */
function change(turn, how) {
    const it = entry(turn);
    how(it);
    state.steps[keyOf(turn)] = it;
    keep();
}

const isFor = (number) => {
    const { models } = stepOf.get(number);
    return models.length === 0 || state.job.model === '' || models.includes(state.job.model);
};
const applies = (turn) => isFor(turn.step) && isFor(turn.at);
const optional = (turn) => stepOf.get(turn.step).optional || stepOf.get(turn.at).optional;
const jobIsWhole = () => ['number', 'serial', 'technician'].every((key) => state.job[key].trim() !== '')
    && (plan.models.length === 0 || state.job.model !== '');
const takenBranches = (turn) => stepOf.get(turn.step).branches.filter((it) => entry(turn).taken[it.branch]);
const everTaken = (turn, branch) => Boolean(entry(turn).taken[branch])
    || entry(turn).earlier.some((attempt) => attempt.taken[branch]);
const owedHolds = (turn) => stepOf.get(turn.step).holds
    .filter((hold) => hold.branch === null || everTaken(turn, hold.branch));
const isSettled = (turn) => Boolean(entry(turn).done || entry(turn).off);

/** Whether anything is filled in there. */
function isTouched(turn) {
    const { values, taken, holds, earlier } = entry(turn);
    const typed = Object.values(values).some((value) => value.typed.trim() !== '');
    return isSettled(turn) || typed || [taken, holds].some((it) => Object.keys(it).length > 0) || earlier.length > 0;
}

const hangsOf = (turn) => [...stepOf.get(turn.step).hangs, ...(turn.at === turn.step ? [] : stepOf.get(turn.at).hangs)];

/** The turn of the earlier step that `hang` is about: of the same round, or the first way through. */
function earlierOf(hang, turn) {
    const ofRound = (round) => plan.turns.find((it) => it.step === hang.on && it.round === round);
    return ofRound(turn.round) ?? ofRound('') ?? turn;
}

/** Whether what the turn hangs on came true; null while that is not known. */
function cameTrue(hang, turn, goneHere) {
    const earlier = earlierOf(hang, turn);
    if (goneHere.has(keyOf(earlier)) && hang.taken) return false;
    if (!entry(earlier).done) return null;
    return hang.branches.some((branch) => Boolean(entry(earlier).taken[branch])) === hang.taken;
}

/** For each turn, in order: `gone` (not for this machine or jumped over), and `lock`, why it cannot be changed. */
function survey() {
    const turns = plan.turns;
    const signed = turns.map((turn) => applies(turn) && Object.keys(entry(turn).holds).length > 0);
    const lastSigned = signed.lastIndexOf(true);
    let [stopped, skipTo, skipFrom, gate, firstOpen] = [0, 0, 0, 0, 0];
    let said = '';
    const goneHere = new Set();
    return turns.map((turn, at) => {
        const place = { turn, gone: '', lock: '', firstOpen, saidBefore: false, waitsFor: 0 };
        const hangs = hangsOf(turn).map((hang) => ({ hang, came: cameTrue(hang, turn, goneHere) }));
        if (!applies(turn)) {
            place.gone = say('not-for-model', { model: state.job.model });
        } else if (stopped) {
            place.gone = say('stopped-at', { step: stopped });
        } else if (turn.step < skipTo && turn.round === '') {
            place.gone = say('skipped-at', { step: skipFrom });
        } else {
            const other = hangs.find(({ came }) => came === false);
            if (other) place.gone = say('came-out-otherwise', { step: other.hang.on });
        }
        if (place.gone) {
            goneHere.add(keyOf(turn));
            return place;
        }
        place.waitsFor = hangs.find(({ hang, came }) => came === null && !isSettled(earlierOf(hang, turn)))?.hang.on ?? 0;
        place.choice = optional(turn) || hangs.some(({ came }) => came === null);
        if (!jobIsWhole()) place.lock = say('fill-job-first');
        else if (gate) place.lock = say('locked-by', { step: gate });
        else if (at < lastSigned) place.lock = say('signed-after', { step: turns[lastSigned].step });
        else if (place.waitsFor) place.lock = say('earlier-first', { step: place.waitsFor });
        [place.saidBefore, said] = [place.lock !== '' && place.lock === said, place.lock];
        if (isSettled(turn)) {
            for (const branch of entry(turn).done ? takenBranches(turn) : []) {
                if (branch.stop) stopped = turn.step;
                if (branch.skip > turn.step) [skipTo, skipFrom] = [branch.skip, turn.step];
            }
        } else {
            firstOpen ||= turn.step;
            if (owedHolds(turn).length > 0) gate ||= turn.step;
        }
        return place;
    });
}

/** What keeps the step from being ticked besides its signatures; empty where nothing does. */
function owed(turn) {
    const step = stepOf.get(turn.step);
    const it = entry(turn);
    for (const field of step.fields) {
        const value = it.values[field.field];
        if (!value?.typed.trim()) return say('fill-in-first', { what: nameOf(field) });
        if (!field.limits) continue;
        const side = sideOf(field.limits, value.typed, value.unit);
        if (!side) return say('fill-in-first', { what: nameOf(field) });
        if (side !== 'within' && !takenBranches(turn).some((branch) => branch[side])) return say('out-of-limits');
    }
    if (step.choice && takenBranches(turn).length !== 1) return say('choose-one');
    const again = takenBranches(turn).some((branch) => branch.redo);
    return again && !takenBranches(turn).some((branch) => branch.stop) ? say('again-first') : '';
}

const redoOf = (turn, taken) => stepOf.get(turn.step).branches.find((it) => it.redo && taken[it.branch])?.redo;

/** How often the step may still be done again; null where no outcome says that it is. */
function redosLeft(turn) {
    const redo = redoOf(turn, entry(turn).taken);
    const before = entry(turn).earlier.filter((attempt) => redoOf(turn, attempt.taken)).length;
    return redo ? (redo.most ?? Infinity) - before : null;
}

/** The turns that are done again with this one. */
function goneBackOver(turn) {
    const from = redoOf(turn, entry(turn).taken)?.from ?? turn.step;
    return plan.turns.filter((it) => applies(it) && it.round === turn.round && it.step >= from && it.step <= turn.step);
}

/** The first of them that has not been done once; 0 where there is none. */
function notYetDone(turn, byKey) {
    const open = goneBackOver(turn).find((it) => it.step !== turn.step && !isSettled(it) && !byKey.get(keyOf(it)).gone);
    return open ? open.step : 0;
}

/** Puts this attempt behind, of all steps that the work goes back over, and begins the next. */
function again(turn) {
    const all = goneBackOver(turn);
    for (const each of all) {
        change(each, (it) => {
            it.earlier.push({ values: it.values, taken: it.taken });
            [it.values, it.taken, it.done, it.off] = [{}, {}, '', ''];
            // What was signed for is done anew, and is looked at anew.
            if (all.length > 1) it.holds = {};
        });
    }
}

const sameName = (a, b) => a.trim().split(/\s+/).join(' ').toLowerCase() === b.trim().split(/\s+/).join(' ').toLowerCase();
