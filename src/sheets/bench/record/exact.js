// Numbers as they are typed, exact as fractions: {n, d, places}, d above zero.
const FIGURES = /^[-\u2212]?\d{1,9}([.,]\d{1,6})?$/;

function number(typed) {
    const text = typed.trim();
    return FIGURES.test(text) ? decimal(text) : null;
}

function decimal(text) {
    const [whole, parts = ''] = text.replace('\u2212', '-').replace(',', '.').split('.');
    return { n: BigInt(whole + parts), d: 10n ** BigInt(parts.length), places: parts.length };
}

function fraction(text) {
    if (!text.includes('/')) return decimal(text);
    const [n, d] = text.split('/');
    return { n: BigInt(n), d: BigInt(d), places: 0 };
}

const plus = (a, b) => ({ n: a.n * b.d + b.n * a.d, d: a.d * b.d });
const times = (a, b) => ({ n: a.n * b.n, d: a.d * b.d });
const less = (a, b) => a.n * b.d < b.n * a.d;
const float = (a) => Number(a.n) / Number(a.d);

function inBase(value, symbol) {
    const unit = plan.units[symbol];
    return plus(times(value, fraction(unit.factor)), fraction(unit.offset));
}

/** 'below', 'within', 'above'; null where it is no number. */
function sideOf(limits, typed, symbol) {
    const value = number(typed);
    if (!value) return null;
    const at = inBase(value, symbol);
    const low = limits.low && inBase(fraction(limits.low), limits.unit);
    const high = limits.high && inBase(fraction(limits.high), limits.unit);
    const isSet = low && limits.low === limits.high && symbol !== limits.unit;
    if (isSet && standsFor(value, symbol, low, at)) return 'within';
    if (low && less(at, low)) return 'below';
    return high && less(high, at) ? 'above' : 'within';
}

/** A value set in one unit can hardly be met in another: half the last figure is allowed, and 3 % at the most. */
function standsFor(value, symbol, set, at) {
    const half = { n: 1n, d: 2n * 10n ** BigInt(value.places) };
    const from = inBase(plus(value, { n: -half.n, d: half.d }), symbol);
    const to = inBase(plus(value, half), symbol);
    const near = Math.abs(float(at) - float(set)) <= 0.03 * Math.abs(float(set));
    return near && !less(set, from) && !less(to, set);
}

/** "30.01" typed in one unit, in the other: for the eye, with the figures that were typed and one more. */
function converted(typed, from, to) {
    const value = number(typed);
    const unit = plan.units[to];
    const base = float(inBase(value, from));
    const amount = (base - float(fraction(unit.offset))) / float(fraction(unit.factor));
    const figures = typed.replace(/\D/g, '').replace(/^0+/, '').length;
    const most = { maximumSignificantDigits: Math.min(Math.max(figures + 1, 3), 10), useGrouping: false };
    return amount.toLocaleString(document.documentElement.lang, most) + '\u00a0' + to;
}
