// Printed sheets: every page says what it belongs to, no text is lost, no safety message parts from its step, and no
// heading from what it heads.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { name } from './markup.mjs';

const PAPERS = { A4: 'A4', Letter: 'letter' };
const KEEP = /break-inside:\s*avoid/g;

/** What the foot of a page says in each language of the sheets. */
const FEET = {
    en: { revision: 'Revision', short: 'Rev.', job: 'Job', page: (number, of) => `Page ${number} of ${of}` },
    de: { revision: 'Revision', short: 'Rev.', job: 'Auftrag', page: (number, of) => `Seite ${number} von ${of}` },
    es: { revision: 'Revisión', short: 'Rev.', job: 'Trabajo', page: (number, of) => `Página ${number} de ${of}` },
    fr: { revision: 'Révision', short: 'Rév.', job: 'Intervention', page: (number, of) => `Page ${number} sur ${of}` },
};

function footOf(source) {
    return FEET[/<html lang="(\w+)">/.exec(source)[1]];
}

export async function print(browser, pages, check) {
    const folder = mkdtempSync(join(tmpdir(), 'sheets-'));
    const press = new Press(browser, folder);
    let partedWithoutTheRule = 0;
    try {
        for (const path of pages) {
            const source = readFileSync(path, 'utf8');
            for (const [paper, size] of Object.entries(PAPERS)) {
                const html = marked(source.replace(/size:(A4|letter)/, `size:${size}`));
                const printed = await press.print(html);
                const title = `${paper} ${name(path)}`;
                check(`messages stay with their steps: ${title}`, parted(printed.layout));
                check(`no heading stands alone: ${title}`, alone(printed.layout));
                check(`every page is named and numbered: ${title}`, unnamed(printed.layout, source));
                check(`no text is lost: ${title}`, lost(printed, source));
                if (partedWithoutTheRule === 0) {
                    const loose = await press.print(html.replace(KEEP, ''));
                    partedWithoutTheRule += parted(loose.layout).length;
                }
            }
        }
        const proof = partedWithoutTheRule > 0 ? [] : ['no message parted, so the check above proves nothing'];
        check('without the rule that keeps groups whole, some message parts from its step', proof);
        check('a group taller than a page loses nothing', await tall(press, pages));
    } finally {
        rmSync(folder, { recursive: true });
    }
}

/** Sheets that are no checklists; some have no messages. */
export async function printOthers(browser, pages, check) {
    const folder = mkdtempSync(join(tmpdir(), 'sheets-'));
    const press = new Press(browser, folder);
    try {
        for (const path of pages) {
            const source = readFileSync(path, 'utf8');
            for (const [paper, size] of Object.entries(PAPERS)) {
                const printed = await press.print(marked(source.replace(/size:(A4|letter)/, `size:${size}`)));
                const title = `${paper} ${name(path)}`;
                check(`every page is named and numbered: ${title}`, unnamed(printed.layout, source));
                check(`no text is lost: ${title}`, lost(printed, source));
                check(`no heading stands alone: ${title}`, alone(printed.layout));
                check(`messages stay with their steps: ${title}`, parted(printed.layout));
            }
        }
    } finally {
        rmSync(folder, { recursive: true });
    }
}

/** Gives each heading (H) and the text behind it (N) a word that can be found on the printed page. */
function markHeadings() {
    // A step's number stands in a column too narrow for a mark.
    const seen = (node) => node.textContent.trim() !== '' && node.parentElement.checkVisibility()
        && !node.parentElement.closest('.no');
    [...document.querySelectorAll('main h2, main h3')].forEach((heading, number) => {
        const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
        walker.currentNode = heading;
        let next = walker.nextNode();
        while (next && (heading.contains(next) || !seen(next))) next = walker.nextNode();
        if (next) next.textContent = `@N${number}@ ${next.textContent}`;
        heading.prepend(`@H${number}@ `);
    });
}

/** Headings whose next words stand on another page. */
function alone(sheets) {
    return sheets.flatMap((sheet, index) => [...sheet.matchAll(/@H(\d+)@/g)]
        .filter(([, number]) => !sheet.includes(`@N${number}@`))
        .map(([, number]) => `page ${index + 1}: heading ${Number(number) + 1} stands alone`));
}

/** Gives each message (M), start (S) and end (E) of a step a word that can be found on the printed page. */
function marked(html) {
    return html
        .replace(/(<div class="message [a-z]+" id="message-(\d+)-(\d+)">\s*<p class="signal">)/g, '$1@M$2.$3@ ')
        .replace(/(<(?:div class="group"|li(?: class="hold")?) id="step-(\d+)">[\s\S]*?<div class="step">[\s\S]*?<p class="do">)/g,
            '$1@S$2@ ');
}

class Press {
    constructor(browser, folder) {
        this.browser = browser;
        this.folder = folder;
    }

    async print(html) {
        const page = join(this.folder, 'page.html');
        const pdf = join(this.folder, 'page.pdf');
        writeFileSync(page, html);
        const tab = await this.browser.newPage();
        await tab.goto(pathToFileURL(page).href);
        await tab.emulateMedia({ media: 'print' });
        await tab.evaluate(markHeadings);
        const wanted = await tab.evaluate(() => [...document.querySelectorAll('p, h1, h2, li, dd')]
            .filter((element) => !element.querySelector('p, li, ol, ul') && element.checkVisibility())
            .map((element) => element.innerText));
        await tab.pdf({ path: pdf, printBackground: true, preferCSSPageSize: true });
        await tab.close();
        return { wanted, layout: text(pdf, '-layout'), raw: text(pdf, '-raw') };
    }
}

function text(pdf, mode) {
    const run = spawnSync('pdftotext', [mode, '-enc', 'UTF-8', pdf, '-'], { encoding: 'utf8' });
    if (run.status !== 0) throw new Error(`pdftotext: ${run.stderr ?? run.error}`);
    return run.stdout.split('\f').slice(0, -1);
}

/** Messages whose step does not start on the page they stand on. */
function parted(sheets) {
    return sheets.flatMap((sheet, index) => {
        const messages = [...sheet.matchAll(/@M(\d+)\.(\d+)@/g)];
        return messages
            .filter(([, step]) => !sheet.includes(`@S${step}@`))
            .map(([, step, number]) => `page ${index + 1}: message ${number} of step ${step} stands without it`);
    });
}

function unnamed(sheets, source) {
    const number = /<p class="number">([^<]+)</.exec(source)?.[1] ?? '(no number)';
    const foot = footOf(source);
    const revision = new RegExp(`<dt>${foot.revision}</dt><dd>([^<]+)<`).exec(source)?.[1];
    const wanted = [number, ...(revision ? [`${foot.short} ${revision}`] : [])];
    return sheets.flatMap((sheet, index) => {
        const line = sheet.replace(/\s+/g, ' ');
        const page = foot.page(index + 1, sheets.length);
        return [...wanted, page].filter((words) => !line.includes(words)).map((w) => `page ${index + 1}: no "${w}"`);
    });
}

/** Paragraphs of the page that are not in the print, white space aside. */
function lost({ wanted, raw }, source) {
    // A word that goes on over a page end has the page's foot in it; feet are cut out first.
    const foot = footOf(source);
    const feet = new RegExp(`^.*${foot.page('\\d+', '\\d+')}.*$|^${foot.job} _+$`, 'gm');
    const squeeze = (words) => words.replace(/[\s;]+/g, '').replace(/\u00ad|\u00a0/g, '').toLowerCase();
    const all = squeeze(raw.map((sheet) => sheet.replace(feet, '')).join('\n'));
    return wanted.map(squeeze).filter((words) => words.length > 0 && !all.includes(words));
}

/** One message grown to three pages, on the first checklist that has one. */
async function tall(press, pages) {
    for (const path of pages) {
        const html = marked(readFileSync(path, 'utf8'));
        const more = Array.from({ length: 160 }, (_, line) => `<p>Grown line number ${line} of this message.</p>`);
        const grown = html.replace(/<p class="avoid">/, `${more.join('')}<p class="avoid">`);
        if (grown !== html) return lost(await press.print(grown), html);
    }
    return ['no checklist has a message to grow'];
}
