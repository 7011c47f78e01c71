// PDFs made without a browser, against the pages they were drawn from: node tests/browser/pdf.mjs OUT_DIR
// Read back by poppler and qpdf, which had no part in making them.
import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const out = process.argv[2];
if (!out) {
    console.error('usage: node tests/browser/pdf.mjs OUT_DIR');
    process.exit(2);
}
const tally = { passed: 0, failed: 0 };
function check(name, faults) {
    tally[faults.length === 0 ? 'passed' : 'failed'] += 1;
    if (faults.length === 0) return;
    console.log(`FAILED ${name}`);
    for (const fault of faults.slice(0, 12)) console.log(`    ${fault}`);
}

function run(program, ...words) {
    const done = spawnSync(program, words, { encoding: 'utf8', maxBuffer: 1 << 26 });
    if (done.error) throw done.error;
    return done;
}

const pdfs = readdirSync(resolve(out), { recursive: true })
    .filter((path) => path.endsWith('.pdf'))
    .sort()
    .map((path) => join(resolve(out), path));
if (pdfs.length === 0) {
    console.error(`no PDF under ${out}`);
    process.exit(2);
}

const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-sync',
        '--disable-background-networking', '--disable-component-update'],
});
const tab = await browser.newPage();
const squeeze = (words) => words.replace(/[\s\u00a0\u00ad\u2060]+/g, '').toLowerCase();
/** Without the foot of the page, which stands between the words of two pages. */
const body = (sheet) => squeeze(sheet.replace(/^.*Page \d+ of \d+.*$|^(?:Job|Learner) _+$|^\S+ +Rev\. .*$/gm, ''));
let messages = 0;
try {
    for (const pdf of pdfs) {
        const name = pdf.split('/').slice(-2).join('/');
        const html = pdf.replace(/\.pdf$/, '.html');
        await tab.goto(pathToFileURL(html).href);
        await tab.emulateMedia({ media: 'print' });
        const told = await tab.evaluate(() => {
            const words = (element) => element.innerText;
            const own = [...document.querySelectorAll('main p, main h1, main h2, main h3, main li, main dd, main dt, main th')]
                .filter((element) => !element.querySelector('p, li, ol, ul, .more, .write') && element.checkVisibility());
            const groups = [...document.querySelectorAll('.group')].map((group) => ({
                last: [...group.querySelectorAll('.message .avoid')].map(words),
                step: [...group.querySelectorAll('.step .do')].map(words)[0] ?? '',
            }));
            return { words: own.map(words), groups, marks: [...document.querySelectorAll('.number')].map(words) };
        });
        const sheets = run('pdftotext', '-raw', '-enc', 'UTF-8', pdf, '-').stdout.split('\f').slice(0, -1);
        const whole = sheets.map(body).join('');
        check(`no text is lost: ${name}`, told.words.map(squeeze).filter((it) => it && !whole.includes(it)));
        check(`every page is named and numbered: ${name}`, sheets.flatMap((sheet, at) => {
            const line = sheet.replace(/\s+/g, ' ');
            return [...told.marks, `Page ${at + 1} of ${sheets.length}`].filter((it) => !line.includes(it));
        }));
        // Standing messages come again and again: behind each there must be a step that it can belong to.
        const pages = sheets.map(body);
        const parted = told.groups.flatMap((group) => group.last.map(squeeze)).flatMap((last) => {
            const steps = told.groups.filter((it) => it.last.map(squeeze).includes(last)).map((it) => squeeze(it.step));
            return pages.flatMap((page, at) => {
                const found = page.lastIndexOf(last);
                if (found >= 0) messages += 1;
                const followed = steps.some((step) => page.indexOf(step, found) >= 0);
                return found < 0 || followed ? [] : [`page ${at + 1} parts from its step: ${last}`];
            });
        });
        check(`messages stay with their steps: ${name}`, parted);
        const sound = run('qpdf', '--check', pdf);
        check(`qpdf finds nothing: ${name}`, sound.status === 0 ? [] : [sound.stdout + sound.stderr]);
        const fonts = run('pdffonts', pdf).stdout.trim().split('\n').slice(2);
        check(`fonts are in the file, with their letters: ${name}`,
            fonts.length === 0 ? ['no font'] : fonts.filter((font) => !/\byes +yes +yes\b/.test(font)));
        const info = run('pdfinfo', pdf).stdout;
        const wanted = [/^Tagged: +yes$/m, /^Title: +\S/m, /^PDF version: +1\.7$/m, /^Page size: +595.*A4/m];
        check(`tagged, titled, on A4: ${name}`, wanted.filter((it) => !it.test(info)).map(String));
        const claims = readFileSync(pdf, 'latin1');
        const marks = ['<pdfaid:part>2</pdfaid:part>', '<pdfuaid:part>1</pdfuaid:part>'];
        check(`says what it keeps to: ${name}`, marks.filter((it) => !claims.includes(it)));
        const read = run('pdfinfo', '-struct-text', pdf).stdout;
        const heading = /<h1>([^<]*)</i.exec(readFileSync(html, 'utf8'))?.[1] ?? '';
        check(`what is read out begins with the title: ${name}`, /\bH1\b/.test(read) && squeeze(read).includes(squeeze(heading)) ? [] : [read.slice(0, 300)]);
    }
    check('some sheet has messages', messages > 0 ? [] : ['none found, so the check of them proves nothing']);
} finally {
    await browser.close();
}
console.log(`${tally.passed} passed, ${tally.failed} failed`);
process.exit(tally.failed === 0 ? 0 : 1);
