// A page loads nothing but itself, runs no script (a bench page: its own), leads nowhere that is not there, and fits a
// phone.
import { existsSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { name } from './markup.mjs';

export async function isolation(browser, pages, check) {
    for (const path of pages) {
        const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
        const asked = [];
        const complaints = [];
        page.on('request', (request) => asked.push(request.url()));
        page.on('console', (message) => complaints.push(message.text()));
        page.on('pageerror', (error) => complaints.push(String(error)));
        const url = pathToFileURL(path).href;
        await page.goto(url);
        const loads = asked.filter((address) => address !== url && !address.startsWith('data:'));
        check(`nothing else is loaded by ${name(path)}`, loads);
        check(`the browser complains of nothing in ${name(path)}`, complaints);
        check(`no foreign script in ${name(path)}`, await scripts(page, path.endsWith('/bench.html')));
        check(`${name(path)} stays below 150 KB`, statSync(path).size > 150_000 ? [`${statSync(path).size} bytes`] : []);
        check(`every picture of ${name(path)} is shown, and holds nothing that runs`, await pictures(page));
        const width = await page.evaluate(() => document.documentElement.scrollWidth);
        check(`no sideways scrolling at 390 px in ${name(path)}`, width > 390 ? [`${width} px wide`] : []);
        check(`every link of ${name(path)} leads somewhere`, await dead(page, path));
        await page.close();
    }
}

// A picture opened by itself would run what an `img` does not.
const pictures = (page) => page.evaluate(async () => {
    const faults = [];
    for (const image of document.images) {
        await image.decode().catch(() => faults.push(`${image.alt}: cannot be shown`));
        if (!image.naturalWidth || !image.alt) faults.push(`${image.alt}: has no size or no words`);
        const drawing = image.src.split('data:image/svg+xml;base64,')[1];
        const text = drawing ? new TextDecoder().decode(Uint8Array.from(atob(drawing), (it) => it.charCodeAt(0))) : '';
        const parsed = new DOMParser().parseFromString(text || '<svg/>', 'image/svg+xml');
        for (const element of parsed.querySelectorAll('*')) {
            const names = [element.localName, ...[...element.attributes].map((it) => it.localName)];
            const runs = names.some((it) => /^on|^(script|href|foreignObject|style|image|use|animate|set)$/.test(it));
            if (runs || /url\(|javascript:/i.test(element.outerHTML)) faults.push(element.outerHTML.slice(0, 80));
        }
    }
    return faults;
});

/** Scripts and handlers; of a bench page its block of data and its script are its own. */
const scripts = (page, isBench) => page.evaluate((mayFill) => {
    const handlers = [...document.querySelectorAll('*')].filter((element) =>
        [...element.attributes].some((attribute) => attribute.name.startsWith('on')));
    const scripts = [...document.querySelectorAll('script')];
    const own = (script, index) => mayFill && !script.src && (index === 0) === (script.type === 'application/json')
        && index < 2;
    return [...scripts.filter((script, index) => !own(script, index)), ...handlers]
        .map((element) => element.outerHTML.slice(0, 80));
}, isBench);

async function dead(page, path) {
    const links = await page.evaluate(() => [...document.querySelectorAll('a[href], use[href]')].map((link) => {
        const written = link.getAttribute('href');
        return { written, full: new URL(written, document.baseURI).href };
    }));
    return links.filter(({ full }) => full.startsWith('file:') && !reachable(full, path)).map((l) => l.written);
}

function reachable(address, from) {
    const [file, anchor] = address.split('#');
    const target = fileURLToPath(file);
    if (!existsSync(target)) return false;
    if (!anchor) return true;
    const text = readFileSync(target === from ? from : target, 'utf8');
    return text.includes(`id="${decodeURIComponent(anchor)}"`);
}
