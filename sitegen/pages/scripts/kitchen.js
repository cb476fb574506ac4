// The arithmetic of sitegen/kitchen/printing.py again, for a page that rescales without a server.
// Same tables (KITCHEN_TABLES, which Python puts before this file), same algorithm, same strings:
// the vectors in the tests hold the two together. Exact rationals as pairs of BigInt [n, d], d > 0;
// no floating point, so that no half is rounded differently here and there.
"use strict";

const Kitchen = ((tables) => {
  const gcd = (a, b) => (b ? gcd(b, a % b) : a < 0n ? -a : a);
  const rational = (n, d) => {
    const by = gcd(n, d) * (d < 0n ? -1n : 1n);
    return [n / by, d / by];
  };
  const read = (text) => {
    const [n, d = "1"] = String(text).split("/");
    return rational(BigInt(n), BigInt(d));
  };
  const write = ([n, d]) => (d === 1n ? `${n}` : `${n}/${d}`);

  const plus = (a, b) => rational(a[0] * b[1] + b[0] * a[1], a[1] * b[1]);
  const minus = (a, b) => rational(a[0] * b[1] - b[0] * a[1], a[1] * b[1]);
  const times = (a, b) => rational(a[0] * b[0], a[1] * b[1]);
  const over = (a, b) => rational(a[0] * b[1], a[1] * b[0]);
  const less = (a, b) => a[0] * b[1] < b[0] * a[1];
  const same = (a, b) => a[0] === b[0] && a[1] === b[1];
  const size = (a) => (a[0] < 0n ? [-a[0], a[1]] : a);
  const floor = ([n, d]) => (n - (((n % d) + d) % d)) / d;

  const ZERO = [0n, 1n];
  const ONE = [1n, 1n];
  const HALF = [1n, 2n];

  // The multiple of `step` nearest to `value`; halves go up.
  const halfUp = (value, step) => times([floor(plus(over(value, step), HALF)), 1n], step);

  // A terminating decimal without trailing zeros: 5/4 is "1.25".
  const decimal = (value) => {
    const whole = floor(value);
    let rest = minus(value, [whole, 1n]);
    let digits = "";
    while (rest[0] && digits.length < 6) {
      rest = times(rest, [10n, 1n]);
      const digit = floor(rest);
      rest = minus(rest, [digit, 1n]);
      digits += digit;
    }
    return digits ? `${whole}.${digits}` : `${whole}`;
  };

  // A whole number with a kitchen fraction: 5/4 is "1¼".
  const mixed = (value) => {
    const whole = floor(value);
    const rest = minus(value, [whole, 1n]);
    if (!rest[0]) return `${whole}`;
    const glyph = tables.glyphs[write(rest)];
    if (glyph) return whole ? `${whole}${glyph}` : glyph;
    return whole ? `${whole} ${write(rest)}` : write(rest);
  };

  // A ladder with its amounts as rationals; an empty bound is none (null).
  const bound = (text) => (text ? read(text) : null);
  const within = (value) => ([below]) => below === null || less(value, below);
  // Single measures and pairs of them, as [amount, number, unit, pair], smallest first.
  const rungsOf = ({ per, steps }) => {
    const found = new Map();
    const add = (at, ...said) => {
      if (!found.has(write(at))) found.set(write(at), [at, ...said]);
    };
    const row = (text, unit) => text.split(" ").map(read).map((amount) => ({
      at: times(amount, [BigInt(per[unit]), 1n]),
      number: mixed(amount),
      name: tables.nouns[unit][less(ONE, amount) ? 1 : 0],
    }));
    for (const [amounts, unit, minors, small] of steps) {
      for (const { at, number, name } of row(amounts, unit)) {
        if (!small) add(at, number, name, 0);
        else {
          for (const minor of row(minors, small)) {
            add(plus(at, minor.at), `${number} ${name} + ${minor.number} ${minor.name}`, "", 1);
          }
        }
      }
    }
    const top = [4n * BigInt(per.cup), 1n];
    return [...found.values()]
      .filter(([at]) => less(at, top))
      .sort(([one], [other]) => (less(one, other) ? -1 : 1));
  };

  const compiled = new Map();
  const compile = (name) => {
    const raw = tables.ladders[name];
    if (raw.kind === "decimal") {
      return {
        kind: raw.kind,
        bands: raw.bands.map(([below, step]) => [bound(below), read(step)]),
        names: raw.names.map(([start, word, per]) => [read(start), word, read(per)]).reverse(),
      };
    }
    const rungs = raw.steps ? rungsOf(raw) : [];
    return {
      kind: raw.kind,
      bands: raw.bands.map(([below, one, many, per, fractions]) => [
        bound(below), one, many, read(per), fractions.map(read),
      ]),
      rungs,
      singles: rungs.filter((rung) => !rung[3]),
      near: read(raw.near || "0"),
      from: raw.from ? read(raw.from) : null,
      major: raw.major && [raw.major[0], read(raw.major[1])],
      minor: raw.minor && [
        raw.minor[0], raw.minor[1].map(([below, step]) => [bound(below), read(step)]),
      ],
    };
  };
  const ladder = (name) => {
    if (!compiled.has(name)) compiled.set(name, compile(name));
    return compiled.get(name);
  };

  // Of two that are equally near, the later one.
  const nearest = (rungs, value) => {
    const gap = (rung) => size(minus(rung[0], value));
    return rungs.reduce((best, each) => (less(gap(best), gap(each)) ? best : each));
  };

  // Each of these gives the amount that stands on the page, its number, and its unit's word.
  const decimalRung = (spec, value) => {
    const step = spec.bands.find(within(value))[1];
    const rounded = halfUp(value, step);
    const amount = less(rounded, step) ? step : rounded;
    const [, word, per] = spec.names.find(([start]) => !less(amount, start));
    return [amount, decimal(over(amount, per)), word];
  };

  const measureRung = (spec, value) => {
    const { rungs, singles } = spec;
    if (rungs.length && less(value, rungs[rungs.length - 1][0])) {
      const single = nearest(singles, value);
      const far = less(times(spec.near, value), size(minus(single[0], value)));
      return (far ? nearest(rungs, value) : single).slice(0, 3);
    }
    const [, one, many, per, fractions] = spec.bands.find(within(value));
    const whole = [floor(over(value, per)), 1n];
    const steps = [...fractions, ONE].map((part) => [times(plus(whole, part), per)]);
    const [amount] = nearest(steps.filter(([at]) => less(ZERO, at)), value);
    const number = over(amount, per);
    return [amount, mixed(number), less(ONE, number) ? many : one];
  };

  const compoundRung = (spec, value) => {
    const [major, per] = spec.major;
    const [minor, bands] = spec.minor;
    const amount = halfUp(value, bands.find(within(value))[1]);
    const whole = floor(over(amount, per));
    const rest = minus(amount, times([whole, 1n], per));
    if (!rest[0]) return [amount, `${whole}`, major];
    return [amount, `${whole} ${major} ${mixed(rest)} ${minor}`, ""];
  };

  const rung = (name, value, noun) => {
    const spec = ladder(name);
    if (spec.kind === "decimal") return decimalRung(spec, value);
    const compound = spec.kind === "compound";
    if (compound && !less(value, spec.from)) return compoundRung(spec, value);
    const found = measureRung(spec, value);
    if (compound && !less(found[0], spec.from)) return compoundRung(spec, found[0]);
    if (!noun) return found;
    // What is counted: a key of the table, or both forms as "leek|leeks".
    const bar = noun.indexOf("|");
    const [one, many] = bar >= 0 && bar < noun.length - 1
      ? [noun.slice(0, bar), noun.slice(bar + 1)]
      : tables.nouns[noun] || [noun, noun];
    return [found[0], found[1], less(ONE, found[0]) ? many : one];
  };

  const pairs = new Set(Object.values(tables.nouns).map((pair) => pair.join("|")));
  const joined = (number, unit) => (unit ? `${number} ${unit}` : number);

  // One amount, or a range, times the factor, as the page prints it.
  const print = (name, value, upto, noun, factor) => {
    const by = read(factor);
    const from = times(read(value), by);
    const to = upto === null || upto === undefined || upto === "" ? null : times(read(upto), by);
    const [amount, number, unit] = rung(name, from, noun);
    if (to === null || !less(from, to)) return joined(number, unit);
    const [amountTo, numberTo, unitTo] = rung(name, to, noun);
    if (same(amount, amountTo)) return joined(number, unit);
    const forms = `${unit}|${unitTo}`;
    if (unitTo && (unit === unitTo || pairs.has(forms) || forms === noun)) {
      return `${number}–${numberTo} ${unitTo}`;
    }
    if (!unit && !unitTo && !`${number}${numberTo}`.includes(" ")) return `${number}–${numberTo}`;
    return `${joined(number, unit)} to ${joined(numberTo, unitTo)}`;
  };

  // Whether an amount is printed as exactly one, and the form of its noun: of a range, by its upper
  // end. "the 2 leeks" is a number and a word, since the number goes when there is one leek.
  const ends = (value, upto, factor) => {
    const by = read(factor);
    return [value, upto].filter((end) => end !== null && end !== undefined && end !== "")
      .map((end) => times(read(end), by));
  };
  const isOne = (name, value, upto, factor) =>
    ends(value, upto, factor).every((end) => same(rung(name, end, "")[0], ONE));
  const word = (name, value, upto, noun, factor) =>
    rung(name, ends(value, upto, factor).reduce((a, b) => (less(a, b) ? b : a)), noun)[2];

  // What a reader types: "6", "1 1/2", "1½", "2.5", "2,5". Null for what is no amount above nought,
  // and for "1,250", which is a thousand here and one and a quarter there.
  const GLYPHS = Object.fromEntries(Object.entries(tables.glyphs).map(([text, glyph]) => [glyph, text]));
  const TYPED = /^(?:(\d{1,6})[.,](\d{1,6})|(\d{1,6})|(?:(\d{1,6}) )?(\d{1,4})\/(\d{1,4}))$/;
  const parse = (typed) => {
    const text = String(typed)
      .replace(/[⅛¼⅓⅜½⅝⅔¾⅞]/gu, (glyph) => ` ${GLYPHS[glyph]} `)
      .replace(/\s*[/⁄]\s*/gu, "/")
      .replace(/\s+/gu, " ")
      .trim();
    const found = TYPED.exec(text);
    if (!found || /,\d{3}$/.test(text)) return null;
    const [, units, decimals, whole, major, top, bottom] = found;
    if (bottom !== undefined && !BigInt(bottom)) return null;
    let value;
    if (decimals !== undefined) {
      value = rational(BigInt(units + decimals), 10n ** BigInt(decimals.length));
    } else if (whole !== undefined) {
      value = [BigInt(whole), 1n];
    } else {
      value = plus([BigInt(major || 0), 1n], rational(BigInt(top), BigInt(bottom)));
    }
    return less(ZERO, value) ? write(value) : null;
  };

  return {
    print,
    isOne,
    word,
    parse,
    // The factor that makes `wanted` of what the recipe gives as `own`.
    ratio: (wanted, own) => write(over(read(wanted), read(own))),
    times: (one, other) => write(times(read(one), read(other))),
    // Below nought, nought or above, as the first is less than, equal to or more than the second.
    compare: (one, other) => (less(read(one), read(other)) ? -1 : less(read(other), read(one)) ? 1 : 0),
  };
})(KITCHEN_TABLES);
