/**
 * The JSON Schema files in rates/schema/ against the runtime check: an editor and the engine say the same of a
 * document wherever JSON Schema can say it. Every value of a full document is changed in turn, in many ways, and both
 * judge the outcome.
 */
import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { catalogueSchema } from '../../../src/documents/catalogue.js';
import { estimateSchema } from '../../../src/documents/estimate.js';
import { ratesSchema } from '../../../src/documents/rates.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  aStep,
  aTax,
  feeLine,
  labourLine,
  operationLine,
  partLine,
} from '../../support/builders.js';

const methods = [
  {
    id: 'm',
    title: 'Pressure test',
    unit: 'kPa',
    start: '100',
    minutes: '15',
    drop: '2',
    least: null,
    most: null,
    cautions: ['c'],
    closing: 'o',
    basis: 'invented',
  },
  {
    id: 'n',
    title: 'Voltage',
    unit: 'V',
    start: null,
    minutes: null,
    drop: null,
    least: '-1',
    most: '14.8',
    cautions: [],
    closing: null,
    basis: '',
  },
];

const fullCatalogue = aCatalogue({
  cautions: [{ id: 'c', text: 'Hot.' }],
  components: [{ id: 'k', title: 'Hose', positions: ['feed'] }],
  remedies: [{ component: 'k', fault: 'leaks', operations: ['o'], instead: [['o']] }],
  parts: [aPart('p', '3.40', { list: '7.95' })],
  steps: [aStep('s', '0.6', { needs: ['s2'], parts: [{ part: 'p', qty: '6', each: true }], cautions: ['c'] })],
  operations: [anOperation('o', '1.4', { steps: ['s'], includes: ['i'], parts: [{ part: 'p', qty: '2' }], fees: ['f'], cautions: ['c'] })],
  overlaps: [{ between: ['o', 'i'], hours: '0.4' }],
  ...{ methods },
});

const fullRates = aRateCard({
  moneyStep: '0.05',
  cashStep: '0.10',
  supplies: { title: 'Supplies', percent: '6', of: ['labour'], minimum: '0', maximum: '45.00', taxes: ['t'] },
  fees: [{ id: 'f', title: 'Fee', amount: '6.50', per: 'estimate', taxes: ['t'] }],
  taxes: [aTax('t', '6.25', { after: ['u'] })],
  parts: { basis: 'markup', mode: 'whole', tiers: [{ upTo: '10.00', percent: '100' }, { percent: '35' }] },
  authorisation: { percent: '10', amount: '25', pick: 'lesser', cap: '50', base: 'total', source: 'invented' },
});

const fullEstimate = anEstimate(
  [
    operationLine('l1', 'o', {
      positions: ['feed'],
      findings: ['f'],
      labourClass: 'general',
      bookHours: '2',
      extraHours: { hours: '0.5', reason: 'seized' },
      taxes: ['t'],
      parts: [{ part: 'p', qty: '2', unitPrice: '3', cost: '1', condition: 'used', omit: false }],
    }),
    labourLine('l2', '0.5'),
    partLine('l3', '-2', '14.00'),
    { id: 'l4', kind: 'sublet', title: 'Sublet', cost: '80.00', price: '90' },
    feeLine('l5', '-12.00'),
    { id: 'l6', kind: 'note', text: 'A note.' },
  ],
  {
    rounds: [{ n: 1, method: 'pressure', clean: false, note: '', methodId: 'm', reading: '5 V', closing: false }],
    findings: [
      {
        id: 'f',
        round: 1,
        component: 'k',
        position: 'feed',
        fault: 'leaks',
        urgency: 'now',
        text: '',
        plugged: 'bung',
        codes: ['P0171', 'U0100-87'],
        seen: [{ how: 'dye', note: '', reading: '', photo: '', alt: 'a hose', forCustomer: false }],
      },
    ],
    ...{ codes: [{ code: 'P0171', note: '' }] },
    discounts: [{ id: 'd', title: 'Discount', percent: '10', amount: null, on: ['labour'], lines: ['l1'] }],
  },
);

const FORMATS = [
  ['catalogue', catalogueSchema, fullCatalogue],
  ['rates', ratesSchema, fullRates],
  ['estimate', estimateSchema, fullEstimate],
] as const;

/** What may stand anywhere in a document by mistake. */
const VALUES: unknown[] = [
  '',
  ' ',
  'word',
  'two words',
  '0',
  '-0',
  '1',
  '-1',
  '1.5',
  '-1.5',
  '0.05',
  '1e3',
  '1,5',
  '12345678901234',
  '0.12345678901',
  'USD',
  'usd',
  'en-US',
  'labour',
  'vehicle',
  'new',
  'baysheet-rates',
  'x'.repeat(65),
  'x'.repeat(10_001),
  0,
  1,
  1.5,
  -1,
  1_000_001,
  true,
  false,
  null,
  [],
  ['a'],
  ['a', 'b'],
  ['a', 'b', 'c'],
  [''],
  [1],
  {},
  { id: 'x' },
  { surprise: 1 },
];

/** The form of a date by RFC 3339, section 5.6 (`full-date`), which JSON Schema names as `date`. */
const FULL_DATE = /^\d{4}-\d\d-\d\d$/;

type Path = (string | number)[];

function pathsOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  const entries: [string | number, unknown][] = Array.isArray(value) ? value.map((item, i) => [i, item]) : Object.entries(value);
  return [path, ...entries.flatMap(([key, item]) => pathsOf(item, [...path, key]))];
}

function withValue(document: object, path: Path, change: (holder: Record<string | number, unknown>, key: string | number) => void): object {
  const copy = { document: structuredClone(document) };
  const keys: Path = ['document', ...path];
  let holder = copy as unknown as Record<string | number, unknown>;
  for (const key of keys.slice(0, -1)) holder = holder[key] as Record<string | number, unknown>;
  change(holder, keys.at(-1)!);
  return copy.document;
}

/**
 * What JSON Schema cannot say: that a record is any object at all but no list, that a day is one of the calendar, that
 * of two keys exactly one is filled in. The engine says these; an editor is silent.
 */
function beyondJsonSchema(path: Path): boolean {
  const place = path.map((key) => (typeof key === 'number' ? '*' : key)).join('.');
  return ['extra', 'consents.*', 'history.*', 'consents', 'history', 'discounts.*', 'discounts.*.percent', 'discounts.*.amount'].includes(
    place,
  );
}

describe.each(FORMATS)('%s', (name, schema, full) => {
  const file = JSON.parse(readFileSync(`rates/schema/${name}.schema.json`, 'utf8')) as object;
  const ajv = new Ajv2020({ strict: true, formats: { date: FULL_DATE } });
  const validate = ajv.compile(file);
  const engine = (document: unknown): boolean => v.safeParse(schema, document).success;
  const editor = (document: unknown): boolean => validate(document);
  const paths = pathsOf(full).filter((path) => path.length > 0);

  it('both take the full document', () => {
    expect([engine(full), editor(full)]).toEqual([true, true]);
  });

  it('both say the same of every value exchanged for another', () => {
    const apart: string[] = [];
    let taken = 0;
    let refused = 0;
    for (const path of paths.filter((each) => !beyondJsonSchema(each))) {
      for (const value of VALUES) {
        const document = withValue(full, path, (holder, key) => {
          holder[key] = structuredClone(value);
        });
        const said = engine(document);
        if (said) taken += 1;
        else refused += 1;
        if (said !== editor(document)) apart.push(`${path.join('.')} = ${JSON.stringify(value).slice(0, 40)}: engine ${said}`);
      }
    }
    expect(apart).toEqual([]);
    expect(Math.min(taken, refused)).toBeGreaterThan(100);
  });

  it('both say the same of every key left out', () => {
    const apart: string[] = [];
    for (const path of paths.filter((each) => typeof each.at(-1) === 'string' && !beyondJsonSchema(each))) {
      const document = withValue(full, path, (holder, key) => {
        delete holder[key];
      });
      if (engine(document) !== editor(document)) apart.push(`${path.join('.')}: engine ${engine(document)}`);
    }
    expect(apart).toEqual([]);
  });

  it('both refuse a key that the format does not have, in every object', () => {
    const free = ['extra', 'consents', 'history'];
    const objects = pathsOf(full).filter((path) => !free.includes(String(path[0])));
    let tried = 0;
    for (const path of objects) {
      let isObject = false;
      const document = withValue(full, path, (holder, key) => {
        const value = holder[key];
        isObject = typeof value === 'object' && value !== null && !Array.isArray(value);
        if (isObject) holder[key] = { ...(value as object), surprise: 1 };
      });
      if (!isObject) continue;
      tried += 1;
      expect([path.join('.'), engine(document), editor(document)]).toEqual([path.join('.'), false, false]);
    }
    expect(tried).toBeGreaterThan(5);
  });
});

it('what JSON Schema cannot say is said by the engine alone', () => {
  const both = anEstimate([], { discounts: [{ id: 'd', title: 'x', percent: '1', amount: '1', on: ['labour'], lines: [] }] });
  expect(v.safeParse(estimateSchema, both).success).toBe(false);
  expect(v.safeParse(estimateSchema, { ...anEstimate([]), extra: [] }).success).toBe(false);
  expect(v.safeParse(ratesSchema, { ...aRateCard(), effectiveFrom: '2026-02-31' }).success).toBe(false);
});
