// The shop of tests/injection, with words written into its slots, and what the program makes of it.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { program } from '../record.mjs';

const TEMPLATE = fileURLToPath(new URL('../../injection/shop', import.meta.url));
const DETAILS = fileURLToPath(new URL('../../../grammar/details.toml', import.meta.url));
const SLOT = /«([a-z0-9-]+)»/g;

const read = (name) => readFileSync(join(TEMPLATE, name), 'utf8');
const files = readdirSync(TEMPLATE).sort();

/** The names of all slots. */
export const slots = [...new Set(files.flatMap((name) => [...read(name).matchAll(SLOT)].map((it) => it[1])))].sort();

/** Details that hold CommonMark, as the table of details has it. */
const proseDetails = readFileSync(DETAILS, 'utf8').split('[[detail]]')
    .filter((row) => row.includes('value = "prose"'))
    .map((row) => `detail-${/key = "([a-z-]+)"/.exec(row)[1]}`);
const isProse = (slot) => proseDetails.includes(slot) || /^(prose|standing|bare)-|^line-message$/.test(slot);

/** How a slot's words begin: they are found by it again. */
export const mark = (slot) => `zq-${slot}`;

/** What a reader sees of the payload in that slot. */
export function seen(slot, payload) {
    const text = isProse(slot) ? payload.prose ?? payload.text : payload.text;
    return (slot.startsWith('argument-') ? text.replaceAll('"', '') : text).replace(/\s+/g, '');
}

function written(file, slot, quoted, payload) {
    const words = slot.startsWith('bare-') ? payload.text : `${mark(slot)} ${payload.text} end`;
    if (file.endsWith('.toml')) return JSON.stringify(words).slice(1, -1);
    if (file.endsWith('.svg')) return words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
    // Between a word and its colon quotes have no escape.
    if (slot.startsWith('argument-')) return words.replaceAll('"', '');
    return quoted ? words.replaceAll('\\', '\\\\').replaceAll('"', '\\"') : words;
}

/** Writes the shop with the payload in every slot. */
export function write(folder, payload) {
    mkdirSync(folder, { recursive: true });
    for (const file of files) {
        const text = read(file);
        const filled = text.replace(SLOT, (_, slot, at) => written(file, slot, text[at - 1] === '"', payload));
        writeFileSync(join(folder, file), filled);
    }
    return folder;
}

/** Runs the program in a folder; what it says, and its faults where it ends otherwise than wanted. */
export function run(folder, wanted, ...words) {
    const { status, stdout, stderr, error } = spawnSync(program(), words, { cwd: folder, encoding: 'utf8' });
    const fine = wanted.includes(status);
    return { stdout, faults: fine ? [] : [`${words.join(' ')} ended with ${status}`, String(error ?? ''), stdout, stderr] };
}

/** Makes every kind of page; `old` is the shop that it is compared with. */
export function build(folder, old) {
    mkdirSync(join(folder, 'out'), { recursive: true });
    const faults = [
        run(folder, [0], 'build', '--withhold', 'torque,limits', '--output', 'out'),
        run(folder, [0], 'build', 'work.cotter', '--since', old, '--output', 'out/since'),
        run(folder, [0], 'build', 'work.cotter', '--language', 'de', '--output', 'out/german'),
    ].flatMap((it) => it.faults);
    for (const [name, wanted, ...words] of [
        ['kit.html', [0], 'kit', '.', '--format', 'html'],
        ['changes.html', [0, 1], 'compare', join(old, 'work.cotter'), 'work.cotter', '--format', 'html'],
        ['changes-back.html', [0, 1], 'compare', 'work.cotter', join(old, 'work.cotter'), '--format', 'html'],
    ]) {
        const made = run(folder, wanted, ...words);
        faults.push(...made.faults);
        writeFileSync(join(folder, 'out', name), made.stdout);
    }
    return faults;
}
