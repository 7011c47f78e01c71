// The preview shows names of files and folders, findings with their source lines, and sheets: none of it runs.
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { program } from '../record.mjs';
import { anatomy, watch } from './page.mjs';
import { HARMLESS, TOGETHER } from './payloads.mjs';
import { write } from './shop.mjs';

/** What can stand in a file's name; both come first in the list. */
const NAMES = { plain: '!plain', hostile: '"><img src=x onerror=window.zq=1>' };
const SHEETS = ['bench.html', 'checklist.html', 'instructor.html', 'assessment.html', 'kit.html'];

/** Lines that cannot be read, so that their findings show them. */
const faulty = (words) => `procedure ZQ-003 "${words}"
    revision: A, 2026-11-02
    ${words}: ${words}

parts
    ring "Ring"  ${words}

remove ring, ${words}
${words}
warning ${words}
    hazard: ${words} [${words}]
`;

export async function previewed(browser, parent, check) {
    const harmless = await looked(browser, join(parent, `shown ${NAMES.plain}`), HARMLESS, NAMES.plain, true, check);
    for (const bypassCSP of [false, true]) {
        const folder = join(parent, `shown ${NAMES.hostile} ${bypassCSP}`);
        const found = await looked(browser, folder, TOGETHER, NAMES.hostile, bypassCSP, check);
        const how = bypassCSP ? 'without a policy' : 'under its policy';
        check(`nothing happens in the preview ${how}`, [...found.did, ...found.ran, ...found.handlers]);
        check(`no other elements in the preview ${how}`, found.kinds.filter((it) => !harmless.kinds.includes(it)));
        check(`the preview shows what it is told ${how}`, ['<script>window.zq=1</script>', NAMES.hostile]
            .filter((words) => !found.text.includes(words.replace(/\s/g, ''))));
    }
}

/** In the page: whether that sheet stands in its frame. */
function isShown(sheet) {
    const { location, document: inside } = document.getElementById('sheet').contentWindow;
    return location.pathname.endsWith(`ZQ-001/${sheet}`) && inside.readyState === 'complete' && inside.querySelector('h1');
}

/** Goes through the list, each sheet, the findings and the box, and says what it saw. */
async function looked(browser, folder, payload, name, bypassCSP, check) {
    write(folder, payload);
    mkdirSync(join(folder, name));
    const words = payload.text.replaceAll('"', "'");
    writeFileSync(join(folder, name, `${name}.cotter`), faulty(words));
    const preview = spawn(program(), ['preview', folder]);
    try {
        const address = await new Promise((resolve, reject) => {
            preview.stdout.on('data', (data) => resolve(/http:\S+/.exec(String(data))[0]));
            preview.on('exit', (code) => reject(new Error(`the preview ended with ${code}`)));
        });
        const context = await browser.newContext({ bypassCSP, viewport: { width: 1600, height: 3000 } });
        const page = await context.newPage();
        const did = watch(page);
        await page.goto(address);
        const shown = [];
        const note = async () => shown.push(await anatomy(page));
        const buttons = page.locator('#files button');
        await buttons.first().waitFor();
        const sheets = await page.locator('#files .number').allTextContents();
        for (let at = 0; at < sheets.length; at += 1) {
            await buttons.nth(at).click();
            await note();
            if (sheets[at] !== 'ZQ-001') continue;
            for (const sheet of SHEETS) {
                await page.locator('#kind').selectOption(sheet);
                await page.waitForFunction(isShown, sheet);
                const ran = await page.evaluate(() => document.getElementById('sheet').contentWindow.zq !== undefined);
                check(`nothing runs in ${sheet} of the preview`, ran ? ['a script of the text\'s ran'] : []);
            }
        }
        await buttons.filter({ hasText: 'ZQ-003' }).click();
        await page.locator('#list li').first().waitFor();
        await page.getByRole('button', { name: 'Write' }).click();
        await page.waitForFunction(() => document.getElementById('text').value.length > 50);
        const text = await page.locator('#text').inputValue();
        const written = readFileSync(join(folder, name, `${name}.cotter`), 'utf8');
        check('the box holds the file', text === written ? [] : [text]);
        await page.locator('#list .where').first().click();
        await note();
        await context.close();
        const own = (it) => it.startsWith('request: ') && it.slice(9).startsWith(address);
        return {
            did: did.filter((it) => !own(it)),
            ran: shown.flatMap((it) => it.ran),
            handlers: shown.flatMap((it) => it.handlers),
            kinds: [...new Set(shown.flatMap((it) => it.skeleton.map((kind) => kind.replace(/ hidden\b/, ''))))],
            text: shown.map((it) => it.text).join(''),
        };
    } finally {
        preview.kill();
    }
}
