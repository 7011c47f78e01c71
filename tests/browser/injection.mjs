// Nothing that stands in a text runs, loads or becomes an element: node tests/browser/injection.mjs
//
// Each payload is written into every text of a shop (tests/injection holds the list of texts to the grammar's tables).
// Every kind of page is then made twice, with harmless words and with the payload, and held against the other in a
// browser: the same elements, as many of them shown, and the payload to be read wherever the harmless words were. Pages
// are opened under their own policy, and without it, since that is the second wall and not the first.
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { filled } from './injection/filled.mjs';
import { anatomy, loose, watch } from './injection/page.mjs';
import { HARMLESS, PAYLOADS, TOGETHER } from './injection/payloads.mjs';
import { previewed } from './injection/previewed.mjs';
import { build, mark, seen, slots, write } from './injection/shop.mjs';

/** Texts that stand on no page. */
const UNSEEN = ['catalogue-revision', 'drawn-words', 'line-entry-catalogue', 'line-entry-waive', 'setting-verbs'];

const parent = mkdtempSync(join(tmpdir(), 'injection-'));
const tally = { passed: 0, failed: 0 };

function check(name, faults) {
    tally[faults.length === 0 ? 'passed' : 'failed'] += 1;
    if (faults.length > 0) console.log(`FAILED ${name}\n    ${faults.slice(0, 8).join('\n    ')}`);
}

const pagesOf = (folder) => readdirSync(folder, { recursive: true }).filter((name) => name.endsWith('.html')).sort();

async function opened(page, did, path) {
    did.length = 0;
    await page.goto(pathToFileURL(path).href);
    await page.evaluate(() => document.querySelectorAll('details').forEach((it) => { it.open = true; }));
    return { ...await anatomy(page), did: [...did] };
}

/** What CommonMark of an author's may become. */
const MARKS = /^(a href( title)?|em|code) ?$/;
/** What is one block of text where an author's comment is left open. */
const BLOCKS = /^(p|ul|li)( lang)? ?$/;

function different(plain, found, payload) {
    const free = payload.open ? BLOCKS : payload.marks ? MARKS : /^$/;
    const bones = (page) => page.skeleton.filter((it) => !free.test(it));
    const [wanted, got] = [bones(plain), bones(found)];
    const at = wanted.findIndex((it, index) => it !== got[index]);
    if (at >= 0 || wanted.length !== got.length) {
        return [`${wanted.length} elements became ${got.length}; at ${at}: "${wanted[at]}" became "${got[at]}"`];
    }
    return found.hidden === plain.hidden ? [] : [`${plain.hidden} elements were hidden, now ${found.hidden}`];
}

/** Where words are marked or drawn elements may be more or fewer, but none of another kind. */
function strange(plain, kinds, also = /^$/) {
    const known = new Set(plain);
    return kinds.filter((it) => !known.has(it) && !also.test(it));
}

const times = (text, words) => text.split(words).length - 1;

/** Wherever the harmless words of a slot could be read, the payload can be. */
function unread(plain, found, payload) {
    const harmless = HARMLESS.text.replaceAll(' ', '');
    return slots.flatMap((slot) => ['text', 'quoted'].flatMap((where) => {
        const wanted = times(plain[where], mark(slot) + harmless);
        const got = times(found[where], mark(slot) + seen(slot, payload));
        const at = found[where].indexOf(mark(slot));
        return got >= wanted ? [] : [`${where} of ${slot}: ${got} of ${wanted}: ${found[where].slice(at, at + 160)}`];
    }));
}

/** These say again what others do: they are opened with all payloads at once. */
const AGAIN = /^ZQ-002\/(?!bench\.html$)|^(since|german)\/(?!ZQ-001\/(bench|checklist)\.html$)/;

/** Opens the pages with this payload in them. */
async function pages(page, did, folder, names, plain, payload) {
    for (const name of names.filter((it) => payload.together || !AGAIN.test(it))) {
        const found = await opened(page, did, join(folder, name));
        const title = `${payload.name}, ${name}`;
        const was = plain[name];
        check(`nothing happens: ${title}`, [...found.did, ...found.ran, ...found.handlers, ...found.addresses]);
        check(`the same styles: ${title}`, found.rules === was.rules ? [] : [`${was.rules} rules: ${found.rules}`]);
        check(`the same drawing: ${title}`, strange(was.kinds, found.kinds));
        if (payload.together || name.startsWith('changes')) {
            check(`no other elements: ${title}`, strange(was.skeleton, found.skeleton, /^(a href( title)?|em|code|ins|del|mark|b|p|p lang) ?$/));
        } else {
            check(`the same elements: ${title}`, different(was, found, payload));
            check(`it can be read: ${title}`, unread(was, found, payload));
        }
    }
}

const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-sync',
        '--disable-background-networking', '--disable-component-update'],
});
try {
    const old = write(join(parent, 'old'), { ...HARMLESS, text: 'words of old 2' });
    const harmless = write(join(parent, 'harmless'), HARMLESS);
    check('the harmless shop is built', build(harmless, old));
    const names = pagesOf(join(harmless, 'out'));
    const viewport = { width: 1280, height: 900 };
    const tab = async (bypassCSP) => (await browser.newContext({ viewport, bypassCSP })).newPage();
    const plain = {};
    const strict = await tab(false);
    const did = watch(strict);
    for (const name of names) {
        plain[name] = await opened(strict, did, join(harmless, 'out', name));
        check(`nothing happens: ${name}`, plain[name].did);
        check(`a strict policy: ${name}`, loose(plain[name].policy));
    }
    const all = Object.values(plain).map((it) => it.text + it.drawn + it.quoted).join('');
    const unseen = slots.filter((slot) => !slot.startsWith('bare-') && !all.includes(mark(slot) + HARMLESS.text.slice(0, 5)));
    check('every text stands on some page', unseen.join() === UNSEEN.join() ? [] : [`unseen: ${unseen.join(', ')}`]);

    const made = async (payload, page, seen) => {
        const folder = write(join(parent, payload.name.replace(/\W+/g, '-')), payload);
        check(`the shop is built: ${payload.name}`, await build(folder, old));
        const now = pagesOf(join(folder, 'out'));
        check(`all pages are made: ${payload.name}`, now.join() === names.join() ? [] : now);
        await pages(page, seen, join(folder, 'out'), now, plain, payload);
        rmSync(folder, { recursive: true });
    };
    await made(TOGETHER, strict, did);
    // Two at a time, without the pages' policy.
    const left = [...PAYLOADS];
    await Promise.all([0, 1].map(async () => {
        const page = await tab(true);
        const seen = watch(page);
        for (let next = left.shift(); next; next = left.shift()) await made(next, page, seen);
    }));
    await filled(browser, harmless, check);
    await previewed(browser, parent, check);
} finally {
    await browser.close();
    rmSync(parent, { recursive: true });
}
console.log(`injection: ${tally.passed} passed, ${tally.failed} failed`);
process.exit(tally.failed === 0 ? 0 : 1);
