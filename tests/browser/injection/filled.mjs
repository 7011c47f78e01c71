// What a learner types into the bench page, and what is found in the browser's storage, are texts as well.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { passes } from '../record.mjs';
import { anatomy, watch } from './page.mjs';
import { HARMLESS, PAYLOADS } from './payloads.mjs';

const JOB = ['Job number', 'Serial number', 'Technician'];
/** As many letters as a field takes. */
const LONGEST = 80;

export async function filled(browser, shop, check) {
    const context = await browser.newContext({ offline: true, bypassCSP: true, acceptDownloads: true });
    const page = await context.newPage();
    const did = watch(page);
    const url = pathToFileURL(join(shop, 'out/ZQ-001/bench.html')).href;
    let plain = null;
    for (const payload of [HARMLESS, ...PAYLOADS]) {
        const text = payload.text.slice(0, LONGEST);
        did.length = 0;
        await page.goto(url);
        for (const label of JOB) await page.getByLabel(label).fill(text);
        await page.getByLabel('Model').selectOption('F40');
        const file = join(shop, 'job.record.json');
        const [download] = await Promise.all([
            page.waitForEvent('download'),
            page.locator('.job').getByRole('button', { name: 'Save the record' }).click(),
        ]);
        await download.saveAs(file);
        const kept = JSON.parse(readFileSync(file, 'utf8')).job.technician;
        check(`the record keeps ${payload.name}`, kept === text.trim() ? [] : [kept]);
        check(`a record with ${payload.name} is read`, passes(file, join(shop, 'work.cotter'), 1));
        await page.evaluate(spoil, text);
        await page.reload();
        const found = await anatomy(page);
        plain ??= new Set(found.skeleton);
        const shown = await page.getByLabel('Technician').inputValue();
        check(`what is kept of ${payload.name} is shown`, shown === text ? [] : [shown]);
        check(`a signature of ${payload.name} is shown`, await signed(page, text));
        check(`nothing happens to a page filled with ${payload.name}`,
            [...did.filter((it) => it !== 'a download'), ...found.ran, ...found.handlers,
                ...found.skeleton.filter((it) => !plain.has(it))]);
        await page.evaluate(() => localStorage.clear());
    }
    await context.close();
}

/** In the page: every text that it kept says the payload, and what can be filled in is. */
function spoil(text) {
    const [key] = Object.keys(localStorage);
    const state = JSON.parse(localStorage.getItem(key));
    const plan = JSON.parse(document.getElementById('record-data').textContent);
    for (const turn of plan.turns ?? plan.steps) {
        const step = { fields: [], branches: [], holds: [], ...plan.steps.find((it) => it.step === turn.step) };
        const values = Object.fromEntries(step.fields.map((field) => [field.field, { typed: text, unit: field.units[0] ?? '', at: text }]));
        const taken = Object.fromEntries(step.branches.map((it) => [it.branch, it.redo ? text : '']));
        state.steps[`${turn.step}|${turn.round ?? ''}`] = {
            done: '', off: '', values, taken, earlier: [{ values, taken }],
            holds: Object.fromEntries(step.holds.map((it) => [it.hold, { name: text, at: text }])),
        };
    }
    localStorage.setItem(key, JSON.stringify({ ...state, started: text }));
}

async function signed(page, text) {
    const notes = await page.locator('.hold-sign .note').allTextContents();
    return notes.some((it) => it.includes(text)) ? [] : notes;
}
