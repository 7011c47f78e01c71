// Checks of built sheets in a real browser: node tests/browser/run.mjs OUT_DIR [PART_OF_A_NAME]
import { readdirSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { chromium } from 'playwright-core';
import { access } from './access.mjs';
import { again } from './again.mjs';
import { isolation } from './isolation.mjs';
import { limits } from './limits.mjs';
import { markup } from './markup.mjs';
import { print, printOthers } from './print.mjs';
import { record } from './record.mjs';

const [out, part = ''] = process.argv.slice(2);
if (!out) {
    console.error('usage: node tests/browser/run.mjs OUT_DIR [PART_OF_A_NAME]');
    process.exit(2);
}

const tally = { passed: 0, failed: 0 };

/** Counts one check; what went wrong is listed under its name. */
function check(name, faults) {
    if (faults.length === 0) {
        tally.passed += 1;
        return;
    }
    tally.failed += 1;
    console.log(`FAILED ${name}`);
    for (const fault of faults.slice(0, 12)) console.log(`    ${fault}`);
    if (faults.length > 12) console.log(`    … and ${faults.length - 12} more`);
}

function pagesUnder(folder) {
    return readdirSync(folder)
        .sort()
        .flatMap((name) => {
            const path = join(folder, name);
            if (statSync(path).isDirectory()) return pagesUnder(path);
            return name.endsWith('.html') ? [path] : [];
        });
}

const pages = pagesUnder(resolve(out)).filter((page) => page.includes(part, page.lastIndexOf('/')));
if (pages.length === 0) {
    console.error(`no page under ${out}`);
    process.exit(2);
}

const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-sync',
        '--disable-background-networking', '--disable-component-update'],
});
try {
    await markup(pages, check);
    await isolation(browser, pages, check);
    await access(browser, pages, check);
    const checklists = pages.filter((page) => page.endsWith('checklist.html'));
    if (checklists.length > 0) await print(browser, checklists, check);
    if ('bench.html'.includes(part)) {
        limits(resolve(out), check);
        await record(browser, resolve(out), 'procedures/pump-f40/fw-pmp-014.cotter', check);
        await again(browser, check);
    }
    await printOthers(browser, pages.filter((page) => !/(checklist|index)\.html$/.test(page)), check);
} finally {
    await browser.close();
}
console.log(`${tally.passed} passed, ${tally.failed} failed`);
process.exit(tally.failed === 0 ? 0 : 1);
