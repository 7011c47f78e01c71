// What a page is made of, and what it did when it was opened.

/** Collects what a page of this context does: nothing of it may happen. */
export function watch(page) {
    const did = [];
    page.on('dialog', (dialog) => { did.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
    page.on('console', (message) => did.push(`console: ${message.text()}`));
    page.on('pageerror', (error) => did.push(`error: ${error}`));
    page.on('popup', () => did.push('a second window'));
    page.on('download', () => did.push('a download'));
    page.on('request', (request) => {
        const own = request.isNavigationRequest() && request.frame() === page.mainFrame();
        if (!own && !request.url().startsWith('data:')) did.push(`request: ${request.url()}`);
    });
    return did;
}

/**
 * Elements and the names of their attributes in order, how many are hidden, all text without its blanks, and what could
 * run. Drawings of words stand apart: one is left out where the words are too long for it.
 */
export const anatomy = (page) => page.evaluate(() => {
    const DRAWN = 'figure.side-on';
    const all = [...document.querySelectorAll('*')];
    const inText = all.filter((element) => !element.closest(DRAWN));
    const form = (element) => `${element.localName} ${[...element.attributes].map((it) => it.name).sort().join(' ')}`;
    const attributes = all.flatMap((element) => [...element.attributes].map((it) => [element, it]));
    const bare = (text) => text.replace(/\s+/g, '').replaceAll('Zq-', 'zq-');
    const walker = document.createTreeWalker(document, NodeFilter.SHOW_TEXT);
    const texts = { text: '', drawn: '' };
    while (walker.nextNode()) {
        const parent = walker.currentNode.parentElement;
        if (!parent.closest('script, style')) texts[parent.closest(DRAWN) ? 'drawn' : 'text'] += walker.currentNode.data;
    }
    const addresses = attributes.filter(([, it]) => /^(href|src|action|formaction|data|srcdoc|poster|background)$/.test(it.localName));
    return {
        skeleton: inText.map(form),
        kinds: all.filter((element) => element.closest(DRAWN)).map(form),
        hidden: inText.filter((element) => !element.checkVisibility()).length,
        text: bare(texts.text),
        drawn: bare(texts.drawn),
        quoted: bare(attributes.map(([, it]) => it.value).join('\u0000')),
        rules: [...document.styleSheets].map((sheet) => sheet.cssRules.length).join(' '),
        handlers: attributes.filter(([, it]) => it.name.startsWith('on')).map(([element]) => element.outerHTML.slice(0, 120)),
        addresses: addresses.map(([, it]) => it.value)
            .filter((it) => !/^(https?:|mailto:|#|data:,$|data:image\/)/i.test(it) && !/^[\w.%#/-]*$/.test(it)),
        ran: window.zq === undefined ? [] : ['a script of the text\'s ran'],
        policy: document.querySelector('meta[http-equiv="Content-Security-Policy"]')?.content ?? '',
    };
});

/** A policy lets nothing be loaded, and no script run that it does not name by its hash. */
export function loose(policy) {
    const parts = Object.fromEntries(policy.split(';').map((part) => part.trim().split(/ (.*)/).slice(0, 2)));
    const faults = [];
    if (parts['default-src'] !== "'none'") faults.push(`default-src ${parts['default-src']}`);
    for (const name of ['base-uri', 'form-action']) if (parts[name] !== "'none'") faults.push(`${name} ${parts[name]}`);
    if (!/^'sha256-[A-Za-z0-9+/]{43}='$/.test(parts['script-src'] ?? `'sha256-${'A'.repeat(43)}='`)) {
        faults.push(`script-src ${parts['script-src']}`);
    }
    return faults;
}
