// The work goes back over steps and a signature, and later steps hang on what was found.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { lacks, locked, passes, program, reason, step, tick } from './record.mjs';

const SOURCE = fileURLToPath(new URL('again.cotter', import.meta.url));

export async function again(browser, check) {
    const folder = mkdtempSync(join(tmpdir(), 'again-'));
    const built = spawnSync(program(), ['build', SOURCE, '--output', folder], { encoding: 'utf8' });
    const context = await browser.newContext({ offline: true, acceptDownloads: true });
    try {
        if (built.status !== 0) {
            check('the page is built', [built.stdout, built.stderr]);
            return;
        }
        const page = await context.newPage();
        await page.goto(pathToFileURL(join(folder, 'FW-TST-090/bench.html')).href);
        for (const [label, text] of [['Job number', '1'], ['Serial number', '2'], ['Technician', 'Ada Fenn']]) {
            await page.getByLabel(label).fill(text);
        }
        await back(page, check);
        await hanging(page, check);
        const file = join(folder, 'job.record.json');
        const [download] = await Promise.all([
            page.waitForEvent('download'),
            page.locator('.job').getByRole('button', { name: 'Save the record' }).click(),
        ]);
        await download.saveAs(file);
        check('a record of work done twice passes', passes(file, SOURCE, 0));
    } finally {
        await context.close();
        rmSync(folder, { recursive: true });
    }
}

async function sign(page) {
    await step(page, 2).getByLabel('Name (instructor)').fill('Ben Moor');
    await step(page, 2).getByRole('button', { name: 'Sign', exact: true }).click();
    await tick(page, 2).check();
}

async function back(page, check) {
    await tick(page, 1).check();
    await sign(page);
    const input = step(page, 3).locator('.field input');
    await input.fill('0.09');
    await page.locator('#step-3 .branches li').first().getByRole('checkbox').check();
    await step(page, 3).getByRole('button', { name: 'Do it again' }).click();
    const open = [1, 2, 3].map(async (number) => (await tick(page, number).isChecked() ? [`step ${number}`] : []));
    check('all that the work goes back over is to be done again', (await Promise.all(open)).flat());
    check('it waits for the signature again', await locked(page, 3, 'until step 2 is signed'));
    check('what was read before is shown', lacks(await step(page, 3).locator('.past').first().textContent(), ['0.09 mm']));
    await tick(page, 1).check();
    await sign(page);
    await input.fill('0.02');
    await tick(page, 3).check();
}

async function hanging(page, check) {
    check('a step waits for the finding that it hangs on', await locked(page, 5, 'First do step 4'));
    await page.locator('#step-4 .branches li').first().getByRole('checkbox').check();
    await tick(page, 4).check();
    check('a step whose finding came out otherwise is left out', lacks(await reason(page, 6), ['step 4 came out otherwise']));
    await tick(page, 5).check();
    const count = await page.locator('.job .count').textContent();
    check('nothing else is owed', lacks(count, ['5 of 5']));
}
