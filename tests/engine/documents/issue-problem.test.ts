/** Every way in which a field can be wrong has a sentence with its name and a hint that says how to mend it. */
import { describe, expect, it } from 'vitest';
import { parseCatalogue, parseEstimate, parseRates, type Problem } from '../../../src/index.js';
import { aCatalogue, anEstimate, anOperation, aPart, aRateCard, aStep, operationLine, partLine } from '../../support/builders.js';

const rates = (change: object): Problem[] => [...parseRates({ ...aRateCard(), ...change }).problems];
const catalogue = (change: object): Problem[] => [...parseCatalogue({ ...aCatalogue(), ...change }).problems];
const estimate = (change: object): Problem[] => [...parseEstimate({ ...anEstimate([]), ...change }).problems];
const labour = (rate: unknown): object => ({ labourClasses: [{ id: 'general', title: '', rate }] });

const CASES: [what: string, problems: () => Problem[], code: string, path: string, message: RegExp, hint: RegExp][] = [
  [
    'a figure in words',
    () => rates(labour('a lot')),
    'decimal',
    'labourClasses[0].rate',
    /"rate" \("a lot"\) is not a figure/,
    /12 digits and 10 decimals/,
  ],
  ['a figure in exponent form', () => rates(labour('1e3')), 'decimal', 'labourClasses[0].rate', /"1e3"/, /like "148.00"/],
  ['a JSON number', () => rates(labour(148.5)), 'number', 'labourClasses[0].rate', /"rate" is a JSON number/, /in quotes: "148.5"/],
  ['a figure below zero', () => rates(labour('-1.00')), 'negative', 'labourClasses[0].rate', /below zero/, /part line.*fee line/],
  ['a step of zero', () => rates({ moneyStep: '0.00' }), 'not-positive', 'moneyStep', /above zero/, /"0.05"/],
  ['an id with a space', () => rates({ id: 'my card' }), 'id', 'id', /"my card"/, /64 letters/],
  ['an id of 65 letters', () => rates({ id: 'x'.repeat(65) }), 'id', 'id', /is not an id/, /64 letters/],
  ['a number as text', () => rates({ title: 5 }), 'text', 'title', /is not text/, /in quotes/],
  ['a text beyond 10,000 characters', () => estimate({ concern: 'x'.repeat(10_001) }), 'too-long', 'concern', /is too long/, /10,000/],
  [
    'a title of spaces',
    () => catalogue({ steps: [aStep('s', '1', { title: '  ' })] }),
    'empty',
    'steps[0].title',
    /is empty/,
    /Write something/,
  ],
  ['a day written otherwise', () => rates({ effectiveFrom: '1.1.2026' }), 'day', 'effectiveFrom', /is not a day/, /2026-01-31/],
  ['a time written otherwise', () => estimate({ createdAt: 'yesterday' }), 'time', 'createdAt', /not a date and time/, /T14:05:00Z/],
  ['yes for true', () => rates({ pricesIncludeTax: 'yes' }), 'yes-or-no', 'pricesIncludeTax', /neither true nor false/, /without quotes/],
  ['half a round', () => estimate({ rounds: [{ n: 1.5 }] }), 'count', 'rounds[0].n', /whole number/, /without quotes/],
  ['a revision of zero', () => estimate({ revision: 0 }), 'count', 'revision', /whole number above zero/, /like 1/],
  [
    'a single id where a list belongs',
    () => catalogue({ operations: [{ ...anOperation('o', '1'), steps: 's' }] }),
    'list',
    'operations[0].steps',
    /is not a list/,
    /square brackets/,
  ],
  [
    'a card without tiers',
    () => rates({ parts: { basis: 'markup', mode: 'whole', tiers: [] } }),
    'empty-list',
    'parts.tiers',
    /no entries/,
    /at least one/,
  ],
  [
    'an overlap of three',
    () => catalogue({ overlaps: [{ between: ['a', 'b', 'c'], hours: '1' }] }),
    'pair',
    'overlaps[0].between[2]',
    /is not a pair/,
    /exactly two/,
  ],
  ['a list where an object belongs', () => estimate({ extra: [] }), 'object', 'extra', /is not an object/, /curly brackets/],
  ['a language in words', () => rates({ locale: 'American English' }), 'locale', 'locale', /language tag/, /BCP 47/],
  ['a sign for a currency', () => rates({ currency: '$' }), 'currency', 'currency', /currency code/, /ISO 4217/],
  [
    'a currency of three letters that there is not',
    () => rates({ currency: 'ZZZ' }),
    'currency',
    'currency',
    /not a currency of ISO 4217/,
    /USD/,
  ],
  [
    'a rounding that there is not',
    () => rates({ rounding: 'up' }),
    'choice',
    'rounding',
    /is "up", which is not one of the choices/,
    /"half-up" \| "half-even" \| "half-down"/,
  ],
  ['a key that there is not', () => rates({ currancy: 'USD' }), 'unknown-key', 'currancy', /"currancy" is not a key/, /spelling/],
  [
    'another format',
    () => rates({ format: 'baysheet-estimate' }),
    'format',
    'format',
    /"baysheet-estimate", not "baysheet-rates"/,
    /another kind/,
  ],
  ['another version', () => rates({ version: 2 }), 'version', 'version', /is 2, not 1/, /newer version/],
  ['a version in quotes', () => rates({ version: '1' }), 'version', 'version', /is "1", not 1/, /newer version/],
  [
    'a line of an unknown kind',
    () => estimate({ lines: [{ id: 'l', kind: 'tyre' }] }),
    'line-kind',
    'lines[0].kind',
    /kind of this line/,
    /operation, labour, part, sublet, fee or note/,
  ],
  [
    'a missing key',
    () => {
      const { id: _, ...rest } = aRateCard();
      return [...parseRates(rest).problems];
    },
    'missing',
    'id',
    /"id" is missing/,
    /./,
  ],
  [
    'a discount of both kinds',
    () => estimate({ discounts: [{ id: 'd', title: 'x', percent: '1', amount: '1', on: ['labour'] }] }),
    'percent-or-amount',
    'discounts[0]',
    /both a percent and an amount, or neither/,
    /leave the other null/,
  ],
  [
    'a discount of neither kind',
    () => estimate({ discounts: [{ id: 'd', title: 'x', on: ['labour'] }] }),
    'percent-or-amount',
    'discounts[0]',
    /or neither/,
    /Fill in one/,
  ],
  ['words where an object belongs', () => estimate({ vehicle: 'a van' }), 'shape', 'vehicle', /"vehicle" is "a van"/, /Expected/],
];

describe.each(CASES)('%s', (_, problems, code, path, message, hint) => {
  it(`is "${code}" at ${path}, and nothing else is said`, () => {
    const found = problems();
    expect(found.map((problem) => [problem.severity, problem.code, problem.path])).toEqual([['error', code, path]]);
    expect(found[0]!.message).toMatch(message);
    expect(found[0]!.hint).toMatch(hint);
  });
});

it('a long wrong entry is cut short in the message', () => {
  const [problem] = rates({ id: 'no id, '.repeat(10_000) });
  expect(problem!.message.length).toBeLessThan(120);
});

it('all problems of a document come at once, each with its own path', () => {
  const read = parseEstimate({
    ...anEstimate([]),
    id: '',
    revision: 'one',
    lines: [partLine('p', '1', '2'), { ...partLine('q', '1', '2'), qty: 2 }, { ...operationLine('o', 'x'), decision: 'maybe' }],
    discounts: [{ id: 'd', title: 'x', percent: '-5', amount: null, on: ['labour'] }],
    surprise: true,
  });
  expect(read.ok).toBe(false);
  expect(read.problems.map(({ code, path }) => `${path} ${code}`).sort()).toEqual([
    'discounts[0].percent negative',
    'id id',
    'lines[1].qty number',
    'lines[2].decision choice',
    'revision count',
    'surprise unknown-key',
  ]);
});

it('every JSON number where a figure belongs is named, wherever it stands', () => {
  const numbers: [Problem[], string][] = [
    [catalogue({ parts: [{ ...aPart('p', '1'), cost: 1 }] }), 'parts[0].cost'],
    [catalogue({ steps: [{ ...aStep('s', '1'), hours: 1.2 }] }), 'steps[0].hours'],
    [catalogue({ operations: [{ ...anOperation('o', '1'), bookHours: 2 }] }), 'operations[0].bookHours'],
    [
      catalogue({ operations: [anOperation('o', '1', { parts: [{ part: 'p', qty: 2 as unknown as string }] })] }),
      'operations[0].parts[0].qty',
    ],
    [catalogue({ overlaps: [{ between: ['a', 'b'], hours: 1 }] }), 'overlaps[0].hours'],
    [rates({ parts: { tiers: [{ percent: 50 }] } }), 'parts.tiers[0].percent'],
    [rates({ supplies: { title: 'x', percent: 6, of: [] } }), 'supplies.percent'],
    [rates({ authorisation: { percent: 10, pick: 'lesser' } }), 'authorisation.percent'],
    [rates({ cashStep: 0.05 }), 'cashStep'],
    [estimate({ lines: [{ ...operationLine('o', 'x'), bookHours: 1 }] }), 'lines[0].bookHours'],
    [estimate({ lines: [{ ...operationLine('o', 'x'), extraHours: { hours: 1 } }] }), 'lines[0].extraHours.hours'],
    [estimate({ lines: [{ ...operationLine('o', 'x'), parts: [{ part: 'p', unitPrice: 3 }] }] }), 'lines[0].parts[0].unitPrice'],
    [estimate({ lines: [{ id: 's', kind: 'sublet', price: 80 }] }), 'lines[0].price'],
    [estimate({ lines: [{ id: 'f', kind: 'fee', title: 'x', amount: 12 }] }), 'lines[0].amount'],
    [estimate({ discounts: [{ id: 'd', title: 'x', amount: 5, on: ['labour'] }] }), 'discounts[0].amount'],
  ];
  for (const [found, path] of numbers) expect(found).toEqual([expect.objectContaining({ code: 'number', path })]);
});
