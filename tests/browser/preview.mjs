// The live preview in a browser: node tests/browser/preview.mjs
//
// A shop of its own is edited on the disk and in the page: a save, a broken save, two who write at once, a folder that
// is gone and there again; and who does not know the address gets nothing.
import { spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import http from 'node:http';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { lacks, program } from './record.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const demo = fileURLToPath(new URL('../../procedures', import.meta.url));
const settings = fileURLToPath(new URL('../../cotter.toml', import.meta.url));
const parent = mkdtempSync(join(tmpdir(), 'preview-'));
const shop = join(parent, 'shop');
const file = join(shop, 'procedures/pump-f40/fw-pmp-014.cotter');
const tally = { passed: 0, failed: 0 };

function check(name, faults) {
    tally[faults.length === 0 ? 'passed' : 'failed'] += 1;
    if (faults.length > 0) console.log(`FAILED ${name}\n    ${faults.join('\n    ')}`);
}

cpSync(demo, join(shop, 'procedures'), { recursive: true });
cpSync(settings, join(shop, 'cotter.toml'));
const preview = spawn(program(), ['preview', shop]);
const address = await new Promise((resolve, reject) => {
    preview.stdout.on('data', (data) => resolve(/http:\S+/.exec(String(data))[0]));
    preview.on('exit', (code) => reject(new Error(`the preview ended with ${code}`)));
});
const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-sync',
        '--disable-background-networking', '--disable-component-update'],
});

const original = readFileSync(file, 'utf8');
const write = (text) => writeFileSync(file, text);
const sheet = (page) => page.frameLocator('#sheet');
const heading = (page) => sheet(page).locator('h1');
const has = async (locator, words) => {
    try {
        await locator.filter({ hasText: words }).first().waitFor({ timeout: 10_000 });
        return [];
    } catch {
        return [`no "${words}": ${(await locator.allTextContents().catch(() => [])).join(' ').slice(0, 300)}`];
    }
};

async function open(context) {
    const page = await context.newPage();
    page.on('pageerror', (error) => check('no error in the page', [String(error)]));
    await page.goto(address);
    await page.getByRole('button', { name: 'FW-PMP-014' }).click();
    await heading(page).waitFor();
    return page;
}

/** A request by hand, with headers that a browser would not let a page set. */
function ask(path, headers = {}, method = 'GET', body = '') {
    const url = new URL(path, address);
    return new Promise((resolve, reject) => {
        const request = http.request({ host: '127.0.0.1', port: url.port, path: url.pathname + url.search, method, headers },
            (answer) => {
                let text = '';
                answer.on('data', (data) => { text += data; });
                answer.on('end', () => resolve({ status: answer.statusCode, text }));
            });
        request.on('error', reject);
        request.end(body);
    });
}

async function strangers() {
    const { host, pathname } = new URL(address);
    const status = async (name, wanted, ...asked) => {
        const answer = await ask(...asked);
        check(name, answer.status === wanted ? [] : [`${answer.status}: ${answer.text.slice(0, 200)}`]);
    };
    await status('without the word there is nothing', 404, '/list', { Host: host });
    await status('with another word there is nothing', 404, `/${'0'.repeat(32)}/list`, { Host: host });
    await status('another name of this machine gets nothing', 421, `${pathname}list`, { Host: `shop.example:${host.split(':')[1]}` });
    const draft = JSON.stringify({ file: 'procedures/pump-f40/fw-pmp-014.cotter', text: 'x', state: '' });
    await status('another site cannot write', 403, `${pathname}save`, { Host: host, Origin: 'http://shop.example' }, 'POST', draft);
    await status('nor can one without an origin', 403, `${pathname}save`, { Host: host }, 'POST', draft);
    const outside = JSON.stringify({ file: '../outside.cotter', text: 'x', state: '' });
    await status('nothing outside is written', 404, `${pathname}save`, { Host: host, Origin: `http://${host}` }, 'POST', outside);
    await status('nothing outside is read', 404, `${pathname}text?..%2Foutside.cotter`, { Host: host });
    await status('no text is no text', 400, `${pathname}check`, { Host: host, Origin: `http://${host}` }, 'POST', '{');
    await status('what is there is told', 200, `${pathname}list`, { Host: host });
    check('the file is untouched', readFileSync(file, 'utf8') === original ? [] : ['it changed']);
}

try {
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 } });
    const page = await open(context);
    await strangers();

    // A save on the disk shows at once, and the place is kept.
    await page.frame({ url: /bench\.html/ }).evaluate(() => window.scrollTo(0, 1500));
    write(original.replace('Renew the drive-end bearing', 'Renew the other bearing'));
    check('a save shows', await has(heading(page), 'Renew the other bearing'));
    const place = await page.frame({ url: /bench\.html/ }).evaluate(() => window.scrollY);
    check('the place is kept', Math.abs(place - 1500) < 3 ? [] : [`at ${place}`]);

    // A broken save: the last good sheet stays, with what is wrong beside it.
    write(original.replace('new bearing', 'bearing'));
    check('a broken save is told of', await has(page.locator('#list li'), 'reused-single-use'));
    check('its line is shown', await has(page.locator('#list pre'), 'bearing'));
    check('the last good sheet stays', await has(heading(page), 'Renew the other bearing'));
    check('that it is old is said', await has(page.locator('#old'), 'last state without'));
    await page.addScriptTag({ content: axe }).catch(() => {});
    await page.evaluate(axe).catch(() => {});
    const report = await page.evaluate(() => window.axe?.run(document, { resultTypes: ['violations'], iframes: false }));
    check('axe finds nothing', (report?.violations ?? [{ id: 'axe did not run', nodes: [] }])
        .map((it) => `${it.id}: ${it.nodes.map((node) => node.html.slice(0, 120)).join(' ')}`));

    // The mend beside the finding, in the box, and saved.
    await page.locator('#list li').filter({ hasText: 'reused-single-use' }).getByRole('button', { name: 'Fit a new one' }).click();
    await page.locator('#save:enabled').waitFor();
    const still = await page.locator('#findings').waitFor({ state: 'hidden', timeout: 10_000 }).then(() => [], String);
    check('what is in the box is checked before it is saved', [still].flat());
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    check('what is saved shows', await has(heading(page), 'Renew the drive-end bearing'));
    check('what is saved is what was mended', readFileSync(file, 'utf8') === original ? [] : ['another text']);

    // Two who write at once.
    const second = await open(context);
    await second.getByRole('button', { name: 'Write' }).click();
    await second.locator('#text').waitFor();
    await second.waitForFunction(() => document.getElementById('text').value.length > 100);
    for (const [who, word] of [[page, 'FIRST'], [second, 'SECOND']]) {
        const text = await who.locator('#text').inputValue();
        await who.locator('#text').fill(`# ${word}\n${text}`);
    }
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    check('the first one saves', await has(page.locator('#saved'), 'Saved'));
    check('the other is told', await has(second.locator('#conflict'), 'changed elsewhere'));
    await second.getByRole('button', { name: 'Save', exact: true }).click();
    check('the other does not write over it', await has(second.locator('#conflict'), 'Not saved'));
    check('the first one\'s text stands', lacks(readFileSync(file, 'utf8').slice(0, 20), ['# FIRST']));
    check('the other\'s is not lost', lacks((await second.locator('#text').inputValue()).slice(0, 20), ['# SECOND']));
    second.once('dialog', (dialog) => dialog.accept());
    await second.getByRole('button', { name: 'Read it from the disk' }).click();
    await second.waitForFunction(() => document.getElementById('text').value.startsWith('# FIRST'));
    await second.close();

    // Line ends and a byte order mark stay.
    write(`\ufeff${original.replaceAll('\n', '\r\n')}`);
    await page.waitForFunction((length) => document.getElementById('text').value.length === length, original.length);
    await page.locator('#text').fill(original.replace('Renew the drive-end bearing', 'Renew one bearing'));
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    check('the saved text shows', await has(heading(page), 'Renew one bearing'));
    const kept = readFileSync(file, 'utf8');
    const wanted = `\ufeff${original.replace('Renew the drive-end bearing', 'Renew one bearing').replaceAll('\n', '\r\n')}`;
    check('line ends and the mark at the start stay', kept === wanted ? [] : [JSON.stringify(kept.slice(0, 80))]);

    // A folder that is gone, and there again.
    renameSync(shop, `${shop}-away`);
    check('a folder that is gone is told of', await has(page.locator('#state'), 'The folder is gone'));
    check('what was seen last stays', await has(heading(page), 'Renew one bearing'));
    renameSync(`${shop}-away`, shop);
    await page.waitForFunction(() => document.getElementById('state').textContent === '', null, { timeout: 10_000 });
    write(original);
    check('when it is there again, so is the preview', await has(heading(page), 'Renew the drive-end bearing'));

    // Settings that cannot be read.
    writeFileSync(join(shop, 'cotter.toml'), 'paper = "A9"\n');
    check('settings that cannot be used are told of', await has(page.locator('#state'), 'cotter.toml'));
    cpSync(settings, join(shop, 'cotter.toml'));
    await page.waitForFunction(() => document.getElementById('state').textContent === '', null, { timeout: 10_000 });

    // Another sheet, and another procedure behind a link.
    await page.locator('#kind').selectOption('checklist.html');
    check('another sheet', await has(sheet(page).locator('body'), 'Technician'));
    await page.setViewportSize({ width: 390, height: 844 });
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    check('no sideways scrolling on a phone', width > 390 ? [`${width} px`] : []);
} finally {
    await browser.close();
    preview.kill();
    rmSync(parent, { recursive: true });
}
console.log(`preview: ${tally.passed} passed, ${tally.failed} failed`);
process.exit(tally.failed === 0 ? 0 : 1);
