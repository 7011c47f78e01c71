// The record as a file: version 1 of `cotter-record`.
function record() {
    const steps = plan.turns.filter((turn) => applies(turn) && state.steps[keyOf(turn)]).map(stepRecord);
    const job = Object.fromEntries(Object.entries(state.job).map(([key, text]) => [key, clean(text)]));
    const { number: n, title, revision, source } = plan;
    const saved = now();
    const made = {
        format: 'cotter-record',
        version: 1,
        procedure: { number: n, title, revision, source },
        job,
        started: state.started || saved,
        saved,
        steps,
    };
    return { ...made, seal: `sha256:${sha256(canonical(made))}` };
}

function stepRecord(turn) {
    const step = stepOf.get(turn.step);
    const it = entry(turn);
    const attempts = [...it.earlier, { values: it.values, taken: it.taken }];
    const values = attempts.flatMap((attempt, index) => step.fields
        .filter((field) => attempt.values[field.field]?.typed.trim())
        .map((field) => {
            const { typed, unit, at } = attempt.values[field.field];
            const { low = '', high = '', unit: limitsIn = '' } = field.limits ?? {};
            return {
                field: field.field, attempt: index + 1, label: field.label, typed: clean(typed), unit, low, high,
                limits_in: limitsIn, at,
            };
        }));
    const outcomes = attempts.flatMap((attempt, index) => step.branches
        .filter(({ branch }) => attempt.taken[branch])
        .map(({ branch, when }) => ({ branch, attempt: index + 1, when, at: attempt.taken[branch] })));
    const holds = step.holds
        .filter(({ hold }) => it.holds[hold])
        .map(({ hold, role }) => ({ hold, role, name: clean(it.holds[hold].name), at: it.holds[hold].at }));
    const settled = it.done ? 'done' : 'not-applicable';
    return {
        step: turn.step, round: turn.round, state: it.done || it.off ? settled : 'open', at: it.done || it.off,
        attempts: attempts.length, values, outcomes, holds,
    };
}

function saveFile() {
    const text = JSON.stringify(record(), null, 2) + '\n';
    const link = document.createElement('a');
    const name = [plan.number, state.job.number || 'job', state.job.serial].filter(Boolean).join('_');
    link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
    link.download = name.replace(/[^\p{L}\p{N}._-]+/gu, '-') + '.record.json';
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}
