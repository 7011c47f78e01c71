// The page of the preview: the list, the sheet that was chosen, its findings, and the box to write in.
'use strict';

const by = (id) => document.getElementById(id);
const [frame, box, conflict] = [by('sheet'), by('text'), by('conflict')];
let shop = { turn: 0, files: [], trouble: null, folder: '' };
/** The file that is shown, and what the box was filled from. */
let chosen = null;
let opened = null;
let typing = 0;

function el(tag, className, text = '') {
    const node = document.createElement(tag);
    node.className = className;
    node.textContent = text;
    return node;
}

const file = () => shop.files.find((it) => it.file === chosen);
const isDirty = () => opened !== null && box.value !== opened.text;
const count = (number, word) => `${number} ${word}${number === 1 ? '' : 's'}`;

async function ask(path, draft) {
    const asked = draft
        ? { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(draft) }
        : {};
    const answer = await fetch(path, asked);
    if (!answer.ok) throw Object.assign(new Error(await answer.text()), { status: answer.status });
    return answer.json();
}

/** Waits for changes as long as the page is open. */
async function follow() {
    for (;;) {
        try {
            const turn = await ask(`wait?${shop.turn}`);
            if (turn !== shop.turn) await look();
            say(shop.trouble ?? '', Boolean(shop.trouble));
        } catch {
            say('The preview has ended. Start it again.', true);
            await new Promise((go) => { setTimeout(go, 1000); });
        }
    }
}

function say(words, alarm) {
    if (by('state').textContent !== words) by('state').textContent = words;
    by('state').classList.toggle('alarm', alarm);
}

async function look() {
    shop = await ask('list');
    by('folder').textContent = shop.folder;
    chosen ??= decodeURIComponent(location.hash.slice(1)) || null;
    if (!file()) chosen = shop.files.find((it) => it.number)?.file ?? null;
    showList();
    showSheet();
    if (opened && opened.file === chosen) await compareWithDisk();
    if (!isDirty()) showFindings(file()?.findings ?? []);
}

function showList() {
    const items = shop.files.map((it) => {
        const button = el('button', '');
        button.type = 'button';
        button.setAttribute('aria-current', String(it.file === chosen));
        button.append(el('span', 'number', it.number || it.file.split('/').pop()), el('span', 'title', it.title));
        if (it.trouble) button.append(el('span', 'count errors', it.trouble));
        else if (it.errors) button.append(el('span', 'count errors', count(it.errors, 'error')));
        else if (it.warnings) button.append(el('span', 'count warnings', count(it.warnings, 'warning')));
        button.addEventListener('click', () => choose(it.file));
        const item = el('li', '');
        item.append(button);
        return item;
    });
    const focused = [...by('files').querySelectorAll('button')].indexOf(document.activeElement);
    by('files').replaceChildren(...items);
    if (focused >= 0) by('files').querySelectorAll('button')[focused]?.focus();
}

async function choose(name) {
    if (isDirty() && !window.confirm('What you wrote is not saved. Leave it?')) return;
    chosen = name;
    opened = null;
    history.replaceState(null, '', `#${encodeURIComponent(name)}`);
    showList();
    showSheet();
    if (!by('box').hidden) await open();
    showFindings(file()?.findings ?? []);
}

/** The sheet anew, at the place where it was scrolled to. */
function showSheet() {
    const it = file();
    by('shown').textContent = it ? `${it.number} ${it.title}`.trim() || it.file : 'Choose a procedure';
    by('old').hidden = !it?.old;
    by('none').hidden = !it?.number || it.sheet;
    frame.hidden = !it?.sheet;
    if (!it?.sheet) return;
    const path = `sheets/${encodeURIComponent(it.number)}/${by('kind').value}`;
    const same = frame.dataset.path === path;
    const place = same ? frame.contentWindow?.scrollY ?? 0 : 0;
    frame.dataset.path = path;
    frame.onload = () => frame.contentWindow.scrollTo(0, place);
    if (same) frame.contentWindow.location.replace(`${path}?${shop.turn}`);
    else frame.src = `${path}?${shop.turn}`;
}

function showFindings(findings) {
    by('findings').hidden = findings.length === 0;
    by('findings-title').textContent = count(findings.length, 'finding');
    by('list').replaceChildren(...findings.map(finding));
}

function finding(it) {
    const item = el('li', it.severity);
    const where = el('button', 'where', `Line ${it.line}: ${it.severity}, ${it.rule}`);
    where.type = 'button';
    where.addEventListener('click', () => point(it));
    item.append(where, el('p', '', it.message), el('pre', '', it.text), ...it.others.map((other) => el('p', 'other', other)));
    if (it.help && !it.mends.some((mend) => mend.title === it.help)) item.append(el('p', 'help', it.help));
    for (const mend of it.mends) {
        const button = el('button', mend.safe ? 'mend' : 'mend quiet', mend.title);
        button.type = 'button';
        button.addEventListener('click', () => apply(mend));
        item.append(button);
    }
    return item;
}

/** Opens the box at the words that the finding is about. */
async function point(it) {
    await write(true);
    box.focus();
    box.setSelectionRange(it.from, it.to);
    const lines = box.value.slice(0, it.from).split('\n').length - 1;
    box.scrollTop = Math.max(0, lines - 4) * parseFloat(getComputedStyle(box).lineHeight);
}

async function apply(mend) {
    await write(true);
    let text = box.value;
    for (const edit of [...mend.changes].sort((a, b) => b.from - a.from)) {
        text = text.slice(0, edit.from) + edit.text + text.slice(edit.to);
    }
    box.value = text;
    await typed();
}

async function write(on) {
    by('box').hidden = !on;
    by('write').setAttribute('aria-expanded', String(on));
    if (on && (opened === null || opened.file !== chosen)) await open();
}

async function open() {
    if (!chosen) return;
    try {
        opened = await ask(`text?${encodeURIComponent(chosen)}`);
        box.value = opened.text;
        tell('');
        await typed();
    } catch (error) {
        tell(error.message);
    }
}

/** Somebody else may have saved the file: what is in the box is not thrown away. */
async function compareWithDisk() {
    const now = await ask(`text?${encodeURIComponent(chosen)}`).catch(() => null);
    if (now === null || now.state === opened.state) return;
    if (isDirty() && now.text !== box.value) {
        tell('The file was changed elsewhere. Copy what you wrote, and read it from the disk.');
        return;
    }
    opened = now;
    const place = [box.selectionStart, box.selectionEnd, box.scrollTop];
    if (box.value !== now.text) box.value = now.text;
    box.setSelectionRange(place[0], place[1]);
    [, , box.scrollTop] = place;
    showSaved();
}

function tell(words) {
    conflict.textContent = words;
    conflict.hidden = words === '';
}

function showSaved() {
    by('save').disabled = !isDirty();
    by('saved').textContent = isDirty() ? 'Not saved' : '';
}

/** Checks what is in the box; an answer that comes late is dropped. */
async function typed() {
    showSaved();
    const turn = typing += 1;
    try {
        const findings = await ask('check', { file: chosen, text: box.value });
        if (turn === typing) showFindings(findings);
    } catch (error) {
        if (turn === typing) tell(error.message);
    }
}

async function save() {
    if (!isDirty()) return;
    const text = box.value;
    try {
        const state = await ask('save', { file: opened.file, text, state: opened.state });
        opened = { ...opened, text, state };
        tell('');
        showSaved();
        if (!isDirty()) by('saved').textContent = 'Saved';
    } catch (error) {
        tell(error.status === 409
            ? 'Not saved: the file was changed elsewhere. Copy what you wrote, and read it from the disk.'
            : `Not saved: ${error.message}`);
    }
}

let pause = 0;
box.addEventListener('input', () => {
    showSaved();
    clearTimeout(pause);
    pause = setTimeout(typed, 150);
});
by('kind').addEventListener('change', showSheet);
by('write').addEventListener('click', () => write(by('box').hidden));
by('save').addEventListener('click', save);
by('reload').addEventListener('click', () => {
    if (!isDirty() || window.confirm('What you wrote is not saved. Read the file from the disk?')) open();
});
window.addEventListener('keydown', (event) => {
    if ((event.ctrlKey || event.metaKey) && event.key === 's') {
        event.preventDefault();
        save();
    }
});
window.addEventListener('beforeunload', (event) => {
    if (isDirty()) event.preventDefault();
});
look().then(follow, follow);
