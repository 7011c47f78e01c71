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

/** For each turn, in order: `gone` (not for this machine or jumped over), and `lock`, why it cannot be changed. */
function survey() {
    const turns = plan.turns;
    const signed = turns.map((turn) => applies(turn) && Object.keys(entry(turn).holds).length > 0);
    const lastSigned = signed.lastIndexOf(true);
    let [stopped, skipTo, skipFrom, gate, firstOpen] = [0, 0, 0, 0, 0];
    let said = '';
    return turns.map((turn, at) => {
        const place = { turn, gone: '', lock: '', firstOpen, saidBefore: false };
        if (!applies(turn)) {
            place.gone = say('not-for-model', { model: state.job.model });
        } else if (stopped) {
            place.gone = say('stopped-at', { step: stopped });
        } else if (turn.step < skipTo && turn.round === '') {
            place.gone = say('skipped-at', { step: skipFrom });
        }
        if (place.gone) return place;
        if (!jobIsWhole()) place.lock = say('fill-job-first');
        else if (gate) place.lock = say('locked-by', { step: gate });
        else if (at < lastSigned) place.lock = say('signed-after', { step: turns[lastSigned].step });
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

/** How often the step may still be done again; null where no outcome says that it is. */
function redosLeft(turn) {
    const redo = takenBranches(turn).find((branch) => branch.redo)?.redo;
    return redo ? (redo.most ?? Infinity) - entry(turn).earlier.length : null;
}

/** Puts this attempt behind and begins the next. */
function again(turn) {
    change(turn, (it) => {
        it.earlier.push({ values: it.values, taken: it.taken });
        [it.values, it.taken, it.done] = [{}, {}, ''];
    });
}

const sameName = (a, b) => a.trim().split(/\s+/).join(' ').toLowerCase() === b.trim().split(/\s+/).join(' ').toLowerCase();
