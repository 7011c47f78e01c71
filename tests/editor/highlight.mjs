// Highlights with vscode-textmate, the library that editors use: what it makes of the fixtures is kept beside them,
// and every word of the tables must be known. `node tests/editor/highlight.mjs [--bless]`
import { readFileSync, readdirSync, writeFileSync, existsSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const wasm = createRequire(import.meta.url).resolve("vscode-oniguruma/release/onig.wasm");
await oniguruma.loadWASM(readFileSync(wasm).buffer);

const folder = join(root, "grammar/editors");
const extension = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
const [grammar] = extension.contributes.grammars;
const [language] = extension.contributes.languages;
JSON.parse(readFileSync(join(folder, language.configuration), "utf8"));
const registry = new textmate.Registry({
    onigLib: Promise.resolve({
        createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
        createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async (name) =>
        name === grammar.scopeName
            ? textmate.parseRawGrammar(readFileSync(join(folder, grammar.path), "utf8"), grammar.path)
            : null,
});
const cotter = await registry.loadGrammar(grammar.scopeName);

/** Each word of each line with its scopes, without the language's own. */
function scopes(text) {
    let state = textmate.INITIAL;
    return text.split(/\r?\n/).map((line) => {
        const { tokens, ruleStack } = cotter.tokenizeLine(line, state);
        state = ruleStack;
        return tokens.map((token) => ({
            text: line.slice(token.startIndex, token.endIndex),
            scopes: token.scopes.slice(1).map((scope) => scope.replace(/\.cotter$/, "")),
        }));
    });
}

const failures = [];

/** `word` has a scope that starts with `scope` in the last line of `text`. */
function known(text, word, scope) {
    const line = scopes(text).at(-1);
    const holds = line.some((it) => it.text === word && it.scopes.some((own) => own.startsWith(scope)));
    if (!holds) failures.push(`${scope}: \`${word}\` in ${JSON.stringify(text)}: ${JSON.stringify(line)}`);
}

// The fixtures.
const fixtures = join(here, "highlight");
for (const name of readdirSync(fixtures).filter((name) => name.endsWith(".cotter"))) {
    const text = readFileSync(join(fixtures, name), "utf8").trimEnd();
    const told = scopes(text).map((line, at) => {
        const words = line.filter((it) => it.text.trim() && it.scopes.length);
        return [text.split("\n")[at], ...words.map((it) => `  ${it.text.trim()} · ${it.scopes.join(" ")}`)].join("\n");
    });
    const now = told.join("\n") + "\n";
    const kept = join(fixtures, name.replace(/\.cotter$/, ".scopes"));
    if (process.argv.includes("--bless")) writeFileSync(kept, now);
    const before = existsSync(kept) ? readFileSync(kept, "utf8") : "";
    if (before !== now) failures.push(`${name} is highlighted otherwise than kept: bless it with --bless and read it`);
}

// Every word of the tables.
const table = (name) => readFileSync(join(root, "grammar", name), "utf8");
const texts = (line) => [...line.matchAll(/"([^"]*)"|'([^']*)'/g)].map((it) => it[1] ?? it[2]);
const rows = (name, kind) =>
    table(name)
        .split(/^\[\[/m)
        .filter((row) => row.startsWith(`${kind}]]`))
        .map((row) => {
            const value = (key) => row.match(new RegExp(`^${key} = ([\\s\\S]*?)(?=^[a-z-]+ = |(?![\\s\\S]))`, "m"))?.[1] ?? "";
            return (key) => texts(value(key));
        });
let words = 0;
const each = (list, look) => list.forEach((word) => ((words += 1), look(word)));
for (const row of rows("verbs.toml", "verb")) {
    each([...row("name"), ...row("synonyms")], (verb) => {
        known(`${verb} cover`, verb, "entity.name.function");
        known(`remove cover; ${verb} cover`, verb, "entity.name.function");
        known(`inspect cover\n    if cracked: ${verb} cover`, verb, "entity.name.function");
    });
}
for (const row of rows("attributes.toml", "attribute")) {
    each(row("key"), (key) => {
        known(`parts\n    x "X"  ${key}`, key, "entity.other.attribute-name");
        known(`parts\n    x "X"  single-use,\n        ${key} y`, key, "entity.other.attribute-name");
    });
}
for (const row of rows("details.toml", "detail")) {
    each(row("key"), (key) => {
        const scope = ["if", "option", "except"].includes(key) ? "keyword.control" : "support.type.property-name";
        known(`remove cover\n    ${key}: cracked`, key, scope);
    });
}
for (const row of rows("hazards.toml", "hazard")) {
    each([...row("name"), ...row("also")], (name) => known(`warning ${name}`, name, "support.constant.hazard"));
}
for (const row of rows("hazards.toml", "wear")) {
    each([...row("name"), ...row("also")], (name) =>
        known(`warning burn\n    wear: ${name}, x`, name, "support.constant.wear"),
    );
}
if (words < 300) failures.push(`only ${words} words were found in the tables`);

// Every file of the demo shop is put back together by its words.
for (const entry of readdirSync(join(root, "procedures"), { recursive: true })) {
    if (!entry.endsWith(".cotter")) continue;
    const text = readFileSync(join(root, "procedures", entry), "utf8");
    const lines = scopes(text).map((line) => line.map((it) => it.text).join(""));
    if (lines.join("\n") !== text) failures.push(`${entry} is not whole after highlighting`);
}

failures.forEach((failure) => console.error(failure));
console.log(`${words} words of the tables, ${failures.length} failures`);
process.exit(failures.length ? 1 : 0);
