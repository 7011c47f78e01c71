// No page has a fault that axe-core can find: on a phone and a desk, in light and dark, with every answer open.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { name } from './markup.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const WIDTHS = { phone: 390, desk: 1280 };

export async function access(browser, pages, check) {
    for (const path of pages) {
        for (const [place, width] of Object.entries(WIDTHS)) {
            for (const colorScheme of ['light', 'dark']) {
                const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
                await page.goto(pathToFileURL(path).href);
                await page.evaluate(() => document.querySelectorAll('details').forEach((d) => { d.open = true; }));
                await page.evaluate(axe);
                const report = await page.evaluate(() => window.axe.run(document, {
                    resultTypes: ['violations'],
                }));
                const faults = report.violations.flatMap((violation) =>
                    violation.nodes.slice(0, 3).map((node) =>
                        `${violation.id}: ${violation.help} … ${node.html.slice(0, 120)}`));
                check(`axe ${place} ${colorScheme} ${name(path)}`, faults);
                await page.close();
            }
        }
    }
}
