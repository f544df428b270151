import type { Rates } from '../documents/rates.js';

/** One thing that differs between two cards, in words; an empty text stands for "not there". Figures are as in the documents. */
export interface RateChange {
  readonly what: string;
  readonly from: string;
  readonly to: string;
}

/** What of a card was changed, in the order of the card. */
export function ratesDifference(before: Rates, after: Rates): RateChange[] {
  return [
    ...fields(before, after, FIELDS),
    ...lists('Labour class', before.labourClasses, after.labourClasses, [['rate', (entry) => entry.rate]]),
    ...fields(before.parts, after.parts, PARTS),
    ...tiers(before, after),
    ...fields({ percent: before.sublet?.percent ?? null }, { percent: after.sublet?.percent ?? null }, [['percent', 'Sublet, percent']]),
    ...supplies(before, after),
    ...lists('Fee', before.fees, after.fees, [
      ['amount', (fee) => fee.amount],
      ['charged per', (fee) => fee.per],
      ['taxes', (fee) => taxes(fee.taxes)],
    ]),
    ...lists('Tax', before.taxes, after.taxes, [
      ['percent', (tax) => tax.percent],
      ['charged on', (tax) => tax.on.join(', ')],
      ['charged after', (tax) => tax.after.join(', ')],
    ]),
    ...authorisation(before, after),
  ];
}

const FIELDS: readonly (readonly [keyof Rates, string])[] = [
  ['title', 'Title'],
  ['currency', 'Currency'],
  ['locale', 'Language and region'],
  ['effectiveFrom', 'In force from'],
  ['rounding', 'Rounding of a half'],
  ['moneyStep', 'Money step'],
  ['taxRounding', 'Rounding of tax'],
  ['pricesIncludeTax', 'Prices include tax'],
  ['cashStep', 'Cash step'],
];

const PARTS: readonly (readonly ['basis' | 'mode', string])[] = [
  ['basis', 'Price of parts by'],
  ['mode', 'Mark-up tiers'],
];

function fields<T extends object>(before: T, after: T, named: readonly (readonly [keyof T, string])[]): RateChange[] {
  return named.flatMap(([key, what]) => change(what, print(before[key]), print(after[key])));
}

type Titled = { readonly id: string; readonly title: string };
type Column<T> = readonly [string, (entry: T) => string];

/** Entries are the same where their id is; the first column says most of one that was added or removed. */
function lists<T extends Titled>(what: string, before: readonly T[], after: readonly T[], columns: readonly Column<T>[]): RateChange[] {
  const [main] = columns;
  const old = new Map(before.map((entry) => [entry.id, entry]));
  const kept = new Set(after.map(({ id }) => id));
  const gone = before.filter(({ id }) => !kept.has(id)).map((entry) => ({ what: `${what} ${name(entry)}`, from: main![1](entry), to: '' }));
  const changed = after.flatMap((entry) => {
    const known = old.get(entry.id);
    if (known === undefined) return [{ what: `${what} ${name(entry)}`, from: '', to: main![1](entry) }];
    return [
      ...change(`${what} ${known.id}, title`, known.title, entry.title),
      ...columns.flatMap(([column, of]) => change(`${name(entry)}, ${column}`, of(known), of(entry))),
    ];
  });
  const order = (list: readonly T[], other: ReadonlySet<string>): string =>
    list
      .map(({ id }) => id)
      .filter((id) => other.has(id))
      .join(', ');
  return [...gone, ...changed, ...change(`${what}, order`, order(before, kept), order(after, new Set(old.keys())))];
}

function tiers(before: Rates, after: Rates): RateChange[] {
  const printed = (rates: Rates): string[] =>
    rates.parts.tiers.map(({ upTo, percent }) => `${upTo === null ? 'above that' : `up to ${upTo}`}: ${percent} %`);
  const [old, now] = [printed(before), printed(after)];
  return old.join() === now.join() ? [] : [{ what: 'Mark-up', from: old.join('; '), to: now.join('; ') }];
}

function supplies(before: Rates, after: Rates): RateChange[] {
  const [old, now] = [before.supplies, after.supplies];
  if (old === null || now === null)
    return change('Supplies', old === null ? '' : `${old.title}, ${old.percent} %`, now === null ? '' : `${now.title}, ${now.percent} %`);
  return [
    ...change('Supplies, title', old.title, now.title),
    ...change('Supplies, percent', old.percent, now.percent),
    ...change('Supplies, of', old.of.join(', '), now.of.join(', ')),
    ...change('Supplies, at least', old.minimum ?? '', now.minimum ?? ''),
    ...change('Supplies, at most', old.maximum ?? '', now.maximum ?? ''),
    ...change('Supplies, taxes', taxes(old.taxes), taxes(now.taxes)),
  ];
}

function authorisation(before: Rates, after: Rates): RateChange[] {
  const words = ({ authorisation: rule }: Rates): string => {
    if (rule === null) return '';
    const { percent, amount, pick, cap, base, source } = rule;
    const parts = [
      percent === null ? '' : `${percent} %`,
      amount ?? '',
      `pick ${pick}`,
      cap === null ? '' : `at most ${cap}`,
      `of ${base}`,
      source,
    ];
    return parts.filter((part) => part !== '').join(', ');
  };
  return change('Rule of authorisation', words(before), words(after));
}

function change(what: string, from: string, to: string): RateChange[] {
  return from === to ? [] : [{ what, from, to }];
}

function name({ id, title }: Titled): string {
  return title || id;
}

function taxes(own: readonly string[] | null): string {
  if (own === null) return 'as the kind says';
  return own.length === 0 ? 'none' : own.join(', ');
}

function print(value: unknown): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (value === null) return '';
  return typeof value === 'string' ? value : JSON.stringify(value);
}
