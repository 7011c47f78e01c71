// A bench page is filled in: on a phone, from disk, without a network; a wrong value does not pass, nothing is lost by a
// reload, and what is saved stands before `cotter record check`.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const PHONE = { width: 390, height: 844 };
const MEASURED = 'Bearing seat diameter';

export async function record(browser, out, source, check) {
    const url = pathToFileURL(join(out, 'FW-PMP-014/bench.html')).href;
    const folder = mkdtempSync(join(tmpdir(), 'record-'));
    const context = await browser.newContext({ viewport: PHONE, offline: true, acceptDownloads: true });
    // A busy machine is slow, not wrong.
    context.setDefaultTimeout(120_000);
    try {
        const page = await context.newPage();
        const complaints = [];
        page.on('pageerror', (error) => complaints.push(String(error)));
        page.on('console', (message) => complaints.push(message.text()));
        await page.goto(url);
        check('an untouched page prints as before', await shownInPrint(page, 0));
        await fill(page, check);
        check('a filled page prints what is filled in', await shownInPrint(page, 1));
        await look(page, check);
        const file = join(folder, 'job.record.json');
        const [download] = await Promise.all([
            page.waitForEvent('download'),
            page.locator('.job').getByRole('button', { name: 'Save the record' }).click(),
        ]);
        await download.saveAs(file);
        check('the record passes `cotter record check`', passes(file, source, 0));
        check('the seal is SHA-256 over the canonical form, as OpenSSL has it', seal(file));
        writeFileSync(file, readFileSync(file, 'utf8').replace('"30,010"', '"30,011"'));
        check('a changed figure does not pass', passes(file, source, 1));
        await afresh(page, check);
        check('the browser complains of nothing while the page is filled in', complaints);
        await page.close();
        await withoutStorage(context, url, check);
    } finally {
        await context.close();
        rmSync(folder, { recursive: true });
    }
}

export const step = (page, number) => page.locator(`#step-${number} .turn`);
export const tick = (page, number) => step(page, number).getByRole('checkbox', { name: `Step ${number} done` });

async function fill(page, check) {
    check('nothing can be ticked before the job is known', await locked(page, 1, 'Fill in the job record'));
    await page.getByLabel('Job number').fill('4711');
    await page.getByLabel('Serial number').fill('300123');
    await page.getByLabel('Technician').fill('Ada Fenn');
    await page.getByLabel('Model').selectOption('F40');
    const numbers = await page.$$eval('.steps > ol > li', (items) => items.map((item) => Number(item.id.slice(5))));
    const measured = await numberOf(page, MEASURED);
    const hold = await page.$eval('.steps > ol > .hold', (item) => Number(item.id.slice(5)));
    check('a step after an unsigned hold is locked', await locked(page, hold + 1, `until step ${hold} is signed`));
    check('a step of another model is left out', await hasReason(page, 5, 'Not for F40'));
    for (const number of numbers) {
        if (await step(page, number).evaluate((panel) => panel.classList.contains('gone'))) continue;
        if (number === measured) await measure(page, number, check);
        else if (number === hold) await sign(page, number, check);
        else await values(page, number);
        await tick(page, number).focus();
        await page.keyboard.press('Space');
        if (!await tick(page, number).isChecked()) {
            check('every step can be ticked by the keyboard', [`step ${number}: ${await reason(page, number)}`]);
            return;
        }
    }
    const count = await page.locator('.job .count').textContent();
    const [, done, all] = /(\d+) of (\d+)/.exec(count) ?? [];
    check('all steps are done', done === all && Number(all) > 30 ? [] : [count]);
}

/** Types into each field a value that its limits allow; tightened values in the second unit. */
async function values(page, number) {
    for (const field of await step(page, number).locator('.field').all()) {
        const limits = await field.locator('.limits').textContent();
        const [, first, second] = /^(.*?) \((.*)\)$/.exec(limits) ?? [null, limits, null];
        const units = field.locator('select');
        const inSecond = second !== null && await units.count() > 0 && /N·m/.test(first);
        if (inSecond) await units.selectOption({ index: 1 });
        const [low, high] = (inSecond ? second : first).match(/[\d.]+/g).map(Number);
        await field.locator('input').fill(String(((low + (high ?? low)) / 2).toFixed(3)));
    }
}

async function measure(page, number, check) {
    const field = step(page, number).locator('.field');
    const input = field.locator('input');
    await input.fill('29,998');
    const note = await field.locator('.note').textContent();
    check('a value out of limits shows what the step says of it', lacks(note, ['Below 30.002–30.015 mm', 'Send the shaft for repair']));
    check('a value out of limits does not pass', await locked(page, number, 'out of limits'));
    await input.fill('thirty');
    check('words are no figures', lacks(await field.locator('.note').textContent(), ['Write figures']));
    await input.fill('30.020');
    await page.locator(`#step-${number} .branches li`).nth(1).getByRole('checkbox').check();
    check('an outcome that sends back must be followed', await locked(page, number, 'Do it again'));
    await step(page, number).getByRole('button', { name: 'Do it again' }).click();
    await input.fill('30,010');
    check('both units are shown', lacks(await field.locator('.note').textContent(), ['in.', 'Within limits']));
    await page.reload();
    const kept = await input.inputValue();
    check('a reload loses nothing', kept === '30,010' && await tick(page, 1).isChecked() ? [] : [kept]);
}

async function sign(page, number, check) {
    const panel = step(page, number);
    const name = panel.getByLabel('Name (instructor)');
    const button = panel.getByRole('button', { name: 'Sign', exact: true });
    await name.fill('ada  fenn');
    check('the doer does not sign', await button.isDisabled() ? [] : ['signed by the doer']);
    await name.fill('Ben Moor');
    await button.focus();
    await page.keyboard.press('Enter');
    check('a signature shows who and when', lacks(await panel.locator('.note').textContent(), ['Signed by Ben Moor']));
    check('what was signed for is locked', await tick(page, number - 1).isDisabled() ? [] : ['not locked']);
}

/** No sideways scrolling at twice the size, and nothing that axe-core objects to. */
async function look(page, check) {
    await page.setViewportSize({ width: 320, height: 700 });
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    check('no sideways scrolling at twice the size', width > 320 ? [`${width} px wide`] : []);
    await page.setViewportSize(PHONE);
    for (const colorScheme of ['light', 'dark']) {
        await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
        await page.evaluate(axe);
        const report = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
        const faults = report.violations.flatMap((it) =>
            it.nodes.slice(0, 3).map((node) => `${it.id}: ${it.help} … ${node.html.slice(0, 120)}`));
        check(`axe filled in ${colorScheme}`, faults);
    }
}

async function afresh(page, check) {
    const start = page.getByRole('button', { name: 'Start afresh' });
    page.once('dialog', (dialog) => dialog.dismiss());
    await start.click();
    const job = page.getByLabel('Job number');
    check('starting afresh asks first', await job.inputValue() === '4711' ? [] : ['all is gone']);
    page.once('dialog', (dialog) => dialog.accept());
    await start.click();
    check('starting afresh empties the page', await job.inputValue() === '' ? [] : ['not empty']);
    const left = await page.evaluate(() => Object.keys(localStorage));
    check('starting afresh leaves nothing behind', left);
}

async function withoutStorage(context, url, check) {
    const page = await context.newPage();
    await page.addInitScript(() => {
        Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('denied', 'SecurityError'); } });
    });
    await page.goto(url);
    await page.getByLabel('Job number').fill('4711');
    check('a page that cannot keep anything says so', lacks(await page.locator('.kept').textContent(), ['keeps nothing']));
    await page.close();
}

async function shownInPrint(page, least) {
    await page.emulateMedia({ media: 'print' });
    const shown = await page.locator('.fill').evaluateAll((all) => all.filter((it) => it.checkVisibility()).length);
    await page.emulateMedia({ media: null });
    return (least === 0 ? shown === 0 : shown >= least) ? [] : [`${shown} panels`];
}

async function numberOf(page, label) {
    return page.$$eval('.steps > ol > li', (items, wanted) => Number(items
        .find((item) => item.querySelector('.field')?.textContent.startsWith(wanted))?.id.slice(5)), label);
}

export const reason = (page, number) => step(page, number).locator('.reason').textContent();
export const lacks = (text, wanted) => wanted.filter((words) => !text.includes(words)).map((words) => `no "${words}" in "${text}"`);
const hasReason = async (page, number, words) => lacks(await reason(page, number), [words]);

export async function locked(page, number, words) {
    const faults = lacks(await reason(page, number), [words]);
    return await tick(page, number).isDisabled() ? faults : [...faults, `step ${number} can be ticked`];
}

/** From the root, so that it is found from whichever folder it is started in. */
export const program = () =>
    resolve(process.env.COTTER ?? join(process.env.CARGO_TARGET_DIR ?? 'target', 'release/cotter'));

export function passes(file, source, code) {
    if (!existsSync(program())) return [`no program at ${program()}: build it, or say where it is with COTTER`];
    const run = spawnSync(program(), ['record', 'check', file, '--against', source], { encoding: 'utf8' });
    return run.status === code ? [] : [`ended with ${run.status}`, run.stdout, run.stderr];
}

/** The canonical form of RFC 8785 for texts, whole numbers, lists and objects. */
function seal(file) {
    const { seal: found, ...rest } = JSON.parse(readFileSync(file, 'utf8'));
    const sorted = (value) => {
        if (Array.isArray(value)) return value.map(sorted);
        if (value === null || typeof value !== 'object') return value;
        return Object.fromEntries(Object.keys(value).sort().map((key) => [key, sorted(value[key])]));
    };
    const wanted = `sha256:${createHash('sha256').update(JSON.stringify(sorted(rest))).digest('hex')}`;
    return found === wanted ? [] : [`${found} is not ${wanted}`];
}
