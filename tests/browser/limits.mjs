// The page's own judging of typed values, held against the table that the program is held against.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const read = (path) => readFileSync(new URL(path, import.meta.url), 'utf8');

export function limits(out, check) {
    const page = readFileSync(join(out, 'FW-PMP-014/bench.html'), 'utf8');
    const plan = JSON.parse(/id="record-data">(.*?)<\/script>/s.exec(page)[1]);
    const sideOf = new Function('plan', `'use strict';${read('../../src/sheets/bench/record/exact.js')}return sideOf;`)(plan);
    const lines = read('../record/limits.tsv').split('\n').filter((line) => line && !line.startsWith('#'));
    const wrong = lines.filter((line) => {
        const [low, high, unit, typed, typedIn, side] = line.split('\t');
        return (sideOf({ low, high, unit }, typed, typedIn) ?? 'none') !== side;
    });
    check('the page judges typed values as the program does', lines.length > 30 ? wrong : ['the table is gone']);
}
