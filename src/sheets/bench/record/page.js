// The fields on the page. They are made once; `show` makes them say what the state says.
const shows = [];
let made = 0;

function el(tag, attributes = {}, ...children) {
    const node = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
        if (name in node && typeof value !== 'string') node[name] = value;
        else node.setAttribute(name, value);
    }
    node.append(...children);
    return node;
}

const newId = () => `record-${made += 1}`;
const setText = (node, text) => { if (node.textContent !== text) node.textContent = text; };
const setValue = (node, text) => { if (node.value !== text) node.value = text; };
const setShown = (node, shown) => { node.hidden = !shown; };

function show() {
    const places = survey();
    const byKey = new Map(places.map((place) => [keyOf(place.turn), place]));
    for (const it of shows) it(byKey, places);
    document.body.classList.toggle('started', Boolean(state.started));
}

function button(word, onclick, className = '') {
    return el('button', { type: 'button', class: className, onclick }, say(word));
}

const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

function nameOf(field) {
    const label = field.label ? capital(field.label) : say('reading');
    const name = field.kind === 'tightened' ? [say('set-to'), field.label].filter(Boolean).join(': ') : label;
    return field.piece ? `${name} (${field.piece})` : name;
}

function jobField(key, word) {
    const id = newId();
    const input = key === 'model'
        ? el('select', { id }, el('option', { value: '' }, say('choose-model')),
            ...plan.models.map((model) => el('option', { value: model }, model)))
        : el('input', { id, type: 'text', autocomplete: 'off', maxlength: '80' });
    input.addEventListener('input', () => {
        state.job[key] = input.value;
        keep();
        show();
    });
    shows.push(() => setValue(input, state.job[key]));
    return el('div', { class: 'field' }, el('label', { for: id }, say(word)), input);
}

function jobPanel() {
    const title = el('h2', { id: 'job-record' }, say('job-record'));
    const where = el('p', { class: 'kept', role: 'status' });
    const count = el('p', { class: 'count' });
    const fields = el('div', { class: 'fields' }, jobField('number', 'job-number'), jobField('serial', 'serial-number'),
        jobField('technician', 'technician'));
    if (plan.models.length > 1) fields.append(jobField('model', 'machine-model'));
    shows.push((byKey, places) => {
        const owedHere = places.filter((place) => !place.gone);
        const done = owedHere.filter((place) => isSettled(place.turn)).length;
        setText(count, say('done-of', { done, all: owedHere.length }));
        setText(where, say(kept ? 'kept-here' : 'not-kept'));
        where.classList.toggle('alarm', !kept);
    });
    const bar = el('div', { class: 'bar' }, button('save-record', saveFile), button('print-page', () => window.print()),
        button('start-afresh', afresh, 'quiet'));
    const panel = el('section', { class: 'fill job', 'aria-labelledby': 'job-record' }, title,
        el('p', {}, say('job-record-says')), fields, count, where, bar);
    document.querySelector('main').prepend(panel);
    document.querySelector('section.afterwards').append(el('div', { class: 'fill bar' }, button('save-record', saveFile)));
}

function afresh() {
    if (!window.confirm(say('really-afresh'))) return;
    forget();
    show();
}

/** All that is filled in at one turn, into `host`; its branches are the items of `list`. */
function turnPanel(turn, host, list) {
    const step = stepOf.get(turn.step);
    const panel = el('div', { class: 'fill turn' });
    const reason = el('p', { class: 'reason', id: newId() });
    const shut = (place) => Boolean(place.lock || place.gone || isSettled(turn));
    for (const field of step.fields) panel.append(fieldPanel(turn, field, list, shut));
    step.branches.filter((branch) => !branch.exception).forEach((branch) => branchPanel(turn, branch, list, shut));
    if (step.fields.length > 0) panel.append(pastPanel(turn));
    if (step.branches.some((branch) => branch.redo)) panel.append(...redoPanel(turn, shut));
    for (const hold of step.holds) panel.append(holdPanel(turn, hold));
    const tick = checkbox(say('step-done-in', { step: turn.step }), (on) => change(turn, (it) => {
        it.done = on ? now() : '';
        it.off = '';
    }));
    const off = checkbox(say('not-for-this'), (on) => change(turn, (it) => {
        it.off = on ? now() : '';
        it.done = '';
    }));
    tick.input.setAttribute('aria-describedby', reason.id);
    off.label.classList.add('quiet');
    panel.append(el('div', { class: 'ticks' }, tick.label, off.label), reason);
    host.append(panel);
    shows.push((byKey) => {
        const place = byKey.get(keyOf(turn));
        const it = entry(turn);
        const unsigned = owedHolds(turn).find((hold) => !it.holds[hold.hold]);
        const why = place.gone || place.lock || (it.done || it.off ? '' : owed(turn)
            || (unsigned ? say('sign-first', { role: unsigned.role }) : ''));
        tick.input.checked = Boolean(it.done);
        tick.input.disabled = Boolean(why) || Boolean(it.off);
        off.input.checked = Boolean(it.off);
        off.input.disabled = Boolean(place.gone || place.lock);
        setShown(off.label, Boolean(place.choice));
        setText(reason, why);
        panel.classList.toggle('gone', Boolean(place.gone));
        // Why step after step is locked is shown once; each is still told it.
        panel.classList.toggle('said-before', place.saidBefore);
        panel.classList.toggle('settled', isSettled(turn));
        if (turn.round === '') host.closest('li').classList.toggle('not-now', Boolean(place.gone));
    });
}

function checkbox(text, onset) {
    const input = el('input', { type: 'checkbox' });
    input.addEventListener('change', () => {
        onset(input.checked);
        show();
    });
    return { input, label: el('label', { class: 'tick' }, input, el('span', {}, text)) };
}

function fieldPanel(turn, field, list, shut) {
    const [id, noteId] = [newId(), newId()];
    const numeric = field.limits !== null;
    const input = el('input', {
        id, type: 'text', autocomplete: 'off', maxlength: '60', 'aria-describedby': noteId,
        ...(numeric ? { inputmode: 'decimal' } : {}),
    });
    const unit = field.units.length > 1
        ? el('select', { 'aria-label': say('unit-of', { what: nameOf(field) }) },
            ...field.units.map((symbol) => el('option', { value: symbol }, symbol)))
        : el('span', { class: 'unit' }, field.units[0] ?? '');
    const note = el('p', { class: 'note', id: noteId, 'aria-live': 'polite' });
    const set = () => {
        change(turn, (it) => {
            it.values[field.field] = { typed: input.value, unit: unit.value ?? field.units[0] ?? '', at: now() };
        });
        show();
    };
    input.addEventListener('input', set);
    unit.addEventListener('change', set);
    const limits = numeric ? [el('span', { class: 'limits' }, field.limits.shown)] : [];
    shows.push((byKey) => {
        const value = entry(turn).values[field.field] ?? { typed: '', unit: field.units[0] ?? '' };
        setValue(input, value.typed);
        if (field.units.length > 1) setValue(unit, value.unit);
        input.disabled = shut(byKey.get(keyOf(turn)));
        if (unit.options) unit.disabled = input.disabled;
        const side = numeric && value.typed.trim() ? sideOf(field.limits, value.typed, value.unit) : '';
        const bad = side === null || side === 'below' || side === 'above';
        if (bad) input.setAttribute('aria-invalid', 'true');
        else input.removeAttribute('aria-invalid');
        setText(note, noteOf(turn, field, value, side, list));
        note.classList.toggle('alarm', bad);
        note.classList.toggle('good', side === 'within');
    });
    return el('div', { class: 'field' }, el('label', { for: id }, nameOf(field)), ...limits,
        el('div', { class: 'row' }, input, unit), note);
}

function noteOf(turn, field, value, side, list) {
    if (side === '') return '';
    if (side === null) return say('no-figure');
    const other = field.units.find((symbol) => symbol !== value.unit);
    const both = other ? `= ${converted(value.typed, value.unit, other)}. ` : '';
    if (side === 'within') return both + say('within-limits');
    const told = say(side === 'below' ? 'below-limits' : 'above-limits', { limits: field.limits.shown });
    const answers = stepOf.get(turn.step).branches.filter((branch) => branch[side])
        .map((branch) => list[branch.branch - 1].dataset.says);
    return `${both}${told} ${answers.length > 0 ? answers.join(' ') : say('set-again')}`;
}

function branchPanel(turn, branch, list, shut) {
    const item = list[branch.branch - 1];
    const isOption = stepOf.get(turn.step).choice;
    const box = checkbox(say(isOption ? 'method-used' : 'outcome-so'), (on) => change(turn, (it) => {
        if (on) it.taken[branch.branch] = now();
        else delete it.taken[branch.branch];
    }));
    item.id ||= newId();
    box.input.setAttribute('aria-describedby', item.id);
    box.label.classList.add('fill');
    item.append(box.label);
    shows.push((byKey) => {
        box.input.checked = Boolean(entry(turn).taken[branch.branch]);
        box.input.disabled = shut(byKey.get(keyOf(turn)));
        const due = stepOf.get(turn.step).fields.some((field) => {
            const value = entry(turn).values[field.field];
            const side = field.limits && value?.typed.trim() && sideOf(field.limits, value.typed, value.unit);
            return side && side !== 'within' && branch[side];
        });
        item.classList.toggle('due', due);
    });
}

/** What was read before the work went back over the step. */
function pastPanel(turn) {
    const past = el('p', { class: 'past' });
    shows.push(() => {
        const values = entry(turn).earlier.map((attempt) => Object.values(attempt.values)
            .map((value) => `${value.typed} ${value.unit}`.trim()).join(', ')).filter(Boolean);
        setText(past, values.length > 0 ? say('read-before', { values: values.join('; ') }) : '');
        setShown(past, values.length > 0);
    });
    return past;
}

function redoPanel(turn, shut) {
    const note = el('p', { class: 'past' });
    const go = button('do-again', () => {
        again(turn);
        show();
    });
    shows.push((byKey) => {
        const left = redosLeft(turn);
        const open = left === null ? 0 : notYetDone(turn, byKey);
        const why = left !== null && left <= 0 ? say('no-more') : '';
        setText(note, why || (open ? say('earlier-first', { step: open }) : ''));
        setShown(note, note.textContent !== '');
        setShown(go, left !== null);
        go.disabled = shut(byKey.get(keyOf(turn))) || left <= 0 || open > 0;
    });
    return [note, go];
}

function holdPanel(turn, hold) {
    const [id, noteId] = [newId(), newId()];
    const input = el('input', { id, type: 'text', autocomplete: 'off', maxlength: '80', 'aria-describedby': noteId });
    const note = el('p', { class: 'note', id: noteId, 'aria-live': 'polite' });
    const sign = button('sign', () => {
        change(turn, (it) => { it.holds[hold.hold] = { name: input.value, at: now() }; });
        show();
    });
    const back = button('take-back', () => {
        change(turn, (it) => { delete it.holds[hold.hold]; });
        show();
    }, 'quiet');
    input.addEventListener('input', show);
    shows.push((byKey, places) => {
        const it = entry(turn);
        const place = byKey.get(keyOf(turn));
        const signed = it.holds[hold.hold];
        const own = sameName(input.value, state.job.technician) && input.value.trim() !== '';
        const later = places.slice(places.indexOf(place) + 1);
        const after = later.some((other) => isTouched(other.turn));
        const first = place.firstOpen && !signed ? say('earlier-first', { step: place.firstOpen }) : '';
        if (signed || !state.started) setValue(input, signed ? signed.name : '');
        input.disabled = Boolean(place.lock || place.gone || signed);
        sign.disabled = input.disabled || own || Boolean(first) || input.value.trim() === '' || Boolean(owed(turn));
        setShown(sign, !signed);
        setShown(back, Boolean(signed));
        back.disabled = Boolean(place.lock || place.gone || it.done || after);
        setText(note, signed ? say('signed-by', { name: signed.name, time: new Date(signed.at).toLocaleString(document.documentElement.lang) })
            : first || (own ? say('not-own-work') : ''));
        setShown(panel, Boolean(signed) || hold.branch === null || everTaken(turn, hold.branch));
    });
    const panel = el('div', { class: 'field hold-sign' }, el('label', { for: id }, say('signature-of', { role: hold.role })),
        el('div', { class: 'row' }, input, sign, back), note);
    return panel;
}

/** The items of a step's branches, each with its words noted before a box stands in it. */
function itemsOf(number) {
    const items = [...document.querySelectorAll(`#step-${number} .branches > li`)];
    for (const item of items) item.dataset.says ??= item.textContent.trim();
    return items;
}

function roundPanel(turns, host) {
    const group = el('fieldset', { class: 'fill round' }, el('legend', {}, capital(turns[0].round)));
    for (const turn of turns) {
        const place = el('div', { class: 'again' },
            el('p', {}, el('a', { href: `#step-${turn.step}` }, say('step-number', { number: turn.step }))));
        const items = itemsOf(turn.step).map((item) => {
            const copy = el('li', {}, item.dataset.says);
            copy.dataset.says = item.dataset.says;
            return copy;
        });
        if (items.length > 0) place.append(el('ul', { class: 'branches' }, ...items));
        turnPanel(turn, place, items);
        group.append(place);
    }
    host.append(group);
}

function build() {
    jobPanel();
    const rounds = new Map();
    for (const step of plan.steps) itemsOf(step.step);
    for (const turn of plan.turns) {
        const host = document.querySelector(`#step-${turn.at} .body`);
        if (turn.round !== '') {
            const key = `${turn.at}|${turn.round}`;
            rounds.set(key, [...(rounds.get(key) ?? []), turn]);
            continue;
        }
        for (const turns of rounds.values()) roundPanel(turns, host);
        rounds.clear();
        turnPanel(turn, host, itemsOf(turn.step));
    }
}

load();
build();
show();
window.addEventListener('storage', (event) => {
    if (event.key !== KEY && event.key !== null) return;
    state = empty();
    load();
    show();
});
