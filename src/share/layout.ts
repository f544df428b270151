import type { Catalogue, CataloguePart, PartNeed, Step } from '../documents/catalogue.js';
import type { Estimate } from '../documents/estimate.js';
import type { AuthorisationRule, Rates } from '../documents/rates.js';
import type { CustomerCopy } from './customer-copy.js';
import { lineSlots, type Told } from './layout-lines.js';
import type { Shop } from './shop.js';
import {
  always,
  choice,
  count,
  flag,
  letters,
  list,
  named,
  nullable,
  record,
  records,
  reference,
  references,
  referenceOr,
  referencesOrNull,
  RowFault,
  separated,
  type Slot,
  text,
  textOrNone,
  textOrNull,
  usually,
} from './slots.js';

/**
 * Where everything of a customer's copy stands in the row of slots, version 1. This is a format: whatever is changed
 * here takes a new version number in `pack.ts`, and the old description stays for the links that are out.
 */

const kinds = letters({ labour: 'l', part: 'p', core: 'c', sublet: 's', fee: 'f', supplies: 'u' });
const baseKinds = letters({ labour: 'l', part: 'p', core: 'c', sublet: 's', fee: 'f' });
const per = choice(['vehicle', 'position']);

/** `3`, `3:2`, `3:2e`, `3e`: which part, how many where not one, and whether for each position. */
const needs = separated<PartNeed>('p', {
  write: ({ part, qty, each }, ids) => `${ids.shorten(part)}${qty === '1' ? '' : `:${qty}`}${each ? 'e' : ''}`,
  read: (slot, ids) => {
    const found = /^([\d?+]+)(?::(\d{1,12}(?:\.\d{1,10})?))?(e?)$/.exec(slot);
    if (found === null) throw new RowFault('a part is none');
    return { part: ids.lengthen(found[1]!), qty: found[2] ?? '1', each: found[3] === 'e' };
  },
});

/** Pairs of operations with the hours that they have in common. */
const pair: Slot<[string, string]> = {
  write: ([a, b], row) => references('o').write([a, b], row),
  read: (row) => {
    const ids = references('o').read(row);
    if (ids.length !== 2) throw new RowFault('a pair is none');
    return [ids[0]!, ids[1]!];
  },
};

const catalogue = record<Told<Catalogue>>({
  format: always('baysheet-catalogue'),
  version: always(1),
  id: always('copy'),
  title: always(''),
  note: always(''),
  cautions: always([]),
  components: named('k', { title: text, positions: always([]) }),
  remedies: always([]),
  parts: named<Told<CataloguePart>>('p', {
    title: text,
    number: text,
    cost: always('0'),
    list: textOrNull,
    core: usually('0'),
    condition: choice(['new', 'used', 'rebuilt', 'reconditioned']),
  }),
  steps: named<Told<Step>>('s', { title: text, hours: text, per, needs: references('s'), parts: needs, cautions: always([]) }),
  operations: named('o', {
    title: text,
    system: always(''),
    labourClass: reference('c'),
    per,
    bookHours: text,
    additionalHours: usually('0'),
    steps: references('s'),
    includes: references('o'),
    parts: needs,
    fees: references('e'),
    cautions: always([]),
    basis: text,
  }),
  overlaps: records<Catalogue['overlaps'][number]>({ between: pair, hours: text }),
});

const authorisation = record<AuthorisationRule>({
  percent: textOrNull,
  amount: textOrNull,
  pick: choice(['lesser', 'greater', 'percent', 'amount']),
  cap: textOrNull,
  base: choice(['total', 'before-tax']),
  source: always(''),
});

const rates = record<Rates>({
  format: always('baysheet-rates'),
  version: always(1),
  id: always('copy'),
  title: always(''),
  currency: text,
  locale: text,
  effectiveFrom: always(null),
  rounding: choice(['half-up', 'half-even', 'half-down']),
  moneyStep: textOrNull,
  labourClasses: named('c', { title: text, rate: text }),
  parts: always({ basis: 'list' as const, mode: 'whole' as const, tiers: [{ upTo: null, percent: '0' }] }),
  sublet: always(null),
  supplies: nullable(
    record<NonNullable<Rates['supplies']>>({
      title: text,
      percent: text,
      of: baseKinds,
      minimum: textOrNull,
      maximum: textOrNull,
      taxes: referencesOrNull('t'),
    }),
  ),
  fees: named('e', { title: text, amount: text, per: choice(['estimate', 'unit']), taxes: referencesOrNull('t') }),
  taxes: named('t', { title: text, percent: text, on: kinds, after: references('t') }),
  taxRounding: choice(['total', 'line']),
  pricesIncludeTax: flag,
  cashStep: textOrNull,
  authorisation: nullable(authorisation),
});

const estimate = record<Told<Estimate>>({
  format: always('baysheet-estimate'),
  version: always(1),
  id: text,
  number: text,
  revision: count(1),
  createdAt: text,
  vehicle: record<Estimate['vehicle']>({ label: text, vin: text, plate: text, odometer: text, unit: choice(['mi', 'km']) }),
  customer: record<Estimate['customer']>({ name: text, phone: always(''), email: always(''), taxExempt: references('t') }),
  concern: text,
  cause: always(''),
  correction: always(''),
  rounds: records<Told<Estimate['rounds'][number]>>({ n: count(1), method: text, clean: flag, note: always('') }),
  findings: named<Told<Estimate['findings'][number]>>('f', {
    round: count(1),
    component: referenceOr('k', ''),
    position: text,
    fault: text,
    seen: records<Told<Estimate['findings'][number]['seen'][number]>>({ how: text, note: always(''), reading: text, photo: always('') }),
    urgency: choice(['soon', 'now', 'unsafe', 'watch']),
    text,
  }),
  lines: lineSlots,
  discounts: named('d', { title: text, percent: textOrNull, amount: textOrNull, on: kinds, lines: list(text) }),
  consents: always([]),
  history: always([]),
  extra: always({}),
});

const shop = record<Shop>({ name: text, phone: text, email: text, address: text, timeZone: textOrNone, terms: text });

/** What is sealed: the copy, and when it was sealed (ISO 8601, UTC). */
export interface Sealable {
  readonly copy: CustomerCopy;
  readonly sealedAt: string;
}

export const layout: Slot<Sealable> = record<Sealable>({
  sealedAt: text,
  copy: record<CustomerCopy>({ shop, estimate, catalogue, rates }),
});
