const data = JSON.parse(document.getElementById('record-data').textContent);
/** What a step asks for where the data says nothing of it. */
const NOTHING = { models: [], optional: false, hangs: [], choice: false, fields: [], holds: [], branches: [] };
const plan = {
    ...data,
    steps: data.steps.map((step) => ({ ...NOTHING, ...step })),
    turns: (data.turns ?? data.steps.map(({ step }) => ({ step, at: step }))).map((turn) => ({ round: '', ...turn })),
};

/** A text of the page's language, with what is put into it. */
function say(key, put = {}) {
    return plan.words[key].replace(/\{(\w+)\}/g, (all, name) => String(put[name] ?? all));
}
