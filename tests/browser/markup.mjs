// Every page is valid HTML, by two independent checkers.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, relative } from 'node:path';
import { HtmlValidate } from 'html-validate';

const require = createRequire(import.meta.url);
const jar = join(dirname(require.resolve('vnu-jar/package.json')), 'build/dist/vnu.jar');

// It gets the hash of a long script wrong, and asks for one of data that is no script. The browser decides: the bench
// page is filled in under its policy, and complains of nothing.
// Nor does it see that the policy lets pictures in that stand in the page itself; that they show is tried in the browser.
const UNHASHED = /^Inline script violates Content Security Policy|^Resource violates Content Security Policy \(meta tag\): image .data:/;

const rules = {
    extends: ['html-validate:recommended'],
    rules: {
        // A workshop's titles are as long as they must be.
        'long-title': 'off',
        // Void elements and quotes as HTML writes them.
        'void-style': ['error', { style: 'omit' }],
        'no-trailing-whitespace': 'off',
    },
};

export async function markup(pages, check) {
    checkedByVnu(pages, check);
    const validator = new HtmlValidate(rules);
    for (const page of pages) {
        const report = await validator.validateString(readFileSync(page, 'utf8'), page);
        const faults = report.results.flatMap((result) =>
            result.messages.map((m) => `${m.line}:${m.column} ${m.ruleId}: ${m.message}`));
        check(`html-validate ${name(page)}`, faults);
    }
}

function checkedByVnu(pages, check) {
    const run = spawnSync('java', ['-jar', jar, '--format', 'json', '--also-check-svg', ...pages],
        { encoding: 'utf8', maxBuffer: 1 << 28 });
    const report = JSON.parse(run.stderr || '{"messages":null}');
    if (!report.messages) {
        check('vnu ran', [run.error?.message ?? run.stdout]);
        return;
    }
    for (const page of pages) {
        const faults = report.messages
            .filter((m) => m.type !== 'info' || m.subType === 'warning')
            .filter((m) => !UNHASHED.test(m.message))
            .filter((m) => m.url.endsWith(encodeURI(page)))
            .map((m) => `${m.lastLine}:${m.lastColumn} ${m.message} … ${m.extract ?? ''}`);
        check(`vnu ${name(page)}`, faults);
    }
}

export function name(page) {
    return relative(process.cwd(), page);
}
