const plan = JSON.parse(document.getElementById('record-data').textContent);

/** A text of the page's language, with what is put into it. */
function say(key, put = {}) {
    return plan.words[key].replace(/\{(\w+)\}/g, (all, name) => String(put[name] ?? all));
}
