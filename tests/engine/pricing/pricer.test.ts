/**
 * The Pricer remembers its last run. Whatever is edited, it gives what a first run gives; and what an edit does not
 * touch stays the same object, so that a page need not draw it again.
 */
import { describe, expect, it } from 'vitest';
import { priceEstimate } from '../../../src/index.js';
import type { Estimate } from '../../../src/documents/estimate.js';
import type { Line } from '../../../src/documents/lines.js';
import { indexCatalogue } from '../../../src/overlap/catalogue-index.js';
import { Pricer } from '../../../src/pricing/pricer.js';
import { indexRates } from '../../../src/pricing/rate-index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
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
  readDocuments,
} from '../../support/builders.js';
import type { RatesDoc } from '../../support/oracle-documents.js';

const CATALOGUE = aCatalogue({
  cautions: [{ id: 'hot', text: 'Hot.' }],
  parts: [aPart('coolant', '5.00'), aPart('seal', '2.15'), aPart('pump', '87.40', { core: '20.00' })],
  steps: [
    aStep('tray', '0.2'),
    aStep('drain', '0.6', { needs: ['tray'], parts: [{ part: 'coolant', qty: '6' }], cautions: ['hot'] }),
    aStep('belt', '0.4', { needs: ['tray'] }),
    aStep('wheel', '0.3', { per: 'position' }),
  ],
  operations: [
    anOperation('hose', '1.4', {
      steps: ['drain'],
      additionalHours: '0.2',
      parts: [{ part: 'seal', qty: '2', each: true }],
      fees: ['disposal'],
    }),
    anOperation('pump', '3.1', {
      steps: ['drain', 'belt'],
      includes: ['thermostat'],
      parts: [
        { part: 'pump', qty: '1' },
        { part: 'seal', qty: '1' },
      ],
      fees: ['disposal'],
    }),
    anOperation('thermostat', '1.1', { steps: ['drain'], parts: [{ part: 'seal', qty: '1' }] }),
    anOperation('alternator', '1.9', { steps: ['belt'], labourClass: 'electrical' }),
    anOperation('pads', '0.8', { per: 'position', steps: ['wheel'], fees: ['damper'] }),
    anOperation('strut', '1.7', { per: 'position', steps: ['wheel'], fees: ['damper'] }),
    anOperation('flush', '0.9'),
    anOperation('scan', '0.6', { labourClass: 'electrical' }),
    anOperation('engine', '9.5', { steps: ['tray'], includes: ['pump', 'alternator'] }),
    anOperation('radiator', '2.4', { steps: ['drain'], includes: ['thermostat', 'hose'] }),
    anOperation('sensor', '0.7'),
    anOperation('loom', '1.2', { steps: ['tray'] }),
    anOperation('relay', '0.5'),
  ],
  overlaps: [
    { between: ['flush', 'hose'], hours: '0.3' },
    { between: ['scan', 'alternator'], hours: '0.2' },
    { between: ['flush', 'pump'], hours: '0.5' },
    { between: ['sensor', 'loom'], hours: '0.6' },
    { between: ['loom', 'relay'], hours: '0.4' },
    { between: ['sensor', 'relay'], hours: '0.4' },
  ],
});

const CARD: Partial<RatesDoc> = {
  labourClasses: [
    { id: 'general', title: '', rate: '148.50' },
    { id: 'electrical', title: '', rate: '162.00' },
  ],
  parts: { basis: 'markup', mode: 'progressive', tiers: [{ upTo: '10.00', percent: '100' }, { percent: '45' }] },
  sublet: { percent: '20' },
  supplies: { title: 'Supplies', percent: '6', of: ['labour', 'part'], minimum: '5.00', maximum: '45.00' },
  fees: [
    { id: 'disposal', title: 'Disposal', amount: '6.50', per: 'estimate' },
    { id: 'damper', title: 'Damper', amount: '3.00', per: 'unit' },
  ],
  taxes: [aTax('state', '6.25', { on: ['part', 'supplies', 'core'] }), aTax('city', '1.375', { after: ['state'] })],
};

/** Numbers that look random and are the same in each run (the "mulberry32" generator, public domain). */
function seeded(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) % below;
  };
}

/** How many edits are made; fewer when mutants are put before these tests, hundreds of times over. */
const EDITS = Number(process.env['EDITS'] ?? 200);

const OPERATIONS = [
  'hose',
  'pump',
  'thermostat',
  'alternator',
  'pads',
  'strut',
  'flush',
  'scan',
  'gone',
  'engine',
  'radiator',
  'sensor',
  'loom',
  'relay',
];
const POSITIONS = [[], ['left'], ['right'], ['left', 'right']];
const DECISIONS = ['proposed', 'approved', 'declined', 'deferred'] as const;

function documents(card: Partial<RatesDoc>, lines: Parameters<typeof anEstimate>[0]) {
  const read = readDocuments({ estimate: anEstimate(lines), catalogue: CATALOGUE, rates: aRateCard(card) });
  return { ...read, pricer: new Pricer(indexCatalogue(read.catalogue), indexRates(read.rates)) };
}

function startLines(): Parameters<typeof anEstimate>[0] {
  return [
    operationLine('l0', 'hose', { positions: ['left'] }),
    operationLine('l1', 'pump'),
    operationLine('l2', 'alternator'),
    operationLine('l3', 'pads', { positions: ['left', 'right'] }),
    labourLine('l4', '0.5'),
    partLine('l5', '2', '14.95', { core: '3.00' }),
    feeLine('l6', '12.00'),
    { id: 'l7', kind: 'sublet', title: 'Sublet', cost: '80.00', price: null },
    { id: 'l8', kind: 'note', text: 'A note.' },
    operationLine('l9', 'flush'),
    operationLine('l10', 'strut', { positions: ['left'] }),
  ];
}

/** Inclusions through others, chains and a ring of declared overlaps, and lines that only the sheet's order ranks. */
function moreLines(): Parameters<typeof anEstimate>[0] {
  return ['engine', 'radiator', 'sensor', 'loom', 'relay', 'scan', 'thermostat', 'hose', 'hose', 'loom', 'flush', 'alternator'].map(
    (operation, i) => operationLine(`m${i}`, operation),
  );
}

/** One edit of an estimate; lines that it does not name stay the same objects. */
function edit(estimate: Estimate, roll: (below: number) => number, made: { n: number }): Estimate {
  const { lines } = estimate;
  const at = lines.length === 0 ? -1 : roll(lines.length);
  const figure = (most: number): string => `${roll(most)}.${String(roll(100)).padStart(2, '0')}`;
  const change = (more: (line: Line) => Partial<Line>): Estimate =>
    at < 0 ? estimate : { ...estimate, lines: lines.with(at, { ...lines[at]!, ...more(lines[at]!) } as Line) };
  const added = (): Line => {
    const line = readDocuments({
      estimate: anEstimate([operationLine(`n${(made.n += 1)}`, OPERATIONS[roll(OPERATIONS.length)]!, { positions: POSITIONS[roll(4)]! })]),
      catalogue: CATALOGUE,
      rates: aRateCard(),
    });
    return line.estimate.lines[0]!;
  };
  switch (roll(15)) {
    case 0:
      return change(() => ({ decision: DECISIONS[roll(4)]! }));
    case 1:
      return change((line) => (line.kind === 'operation' ? { positions: POSITIONS[roll(4)]! } : {}));
    case 2:
      return change((line) =>
        line.kind === 'operation' ? { bookHours: roll(3) === 0 ? null : figure(4) } : line.kind === 'labour' ? { hours: figure(3) } : {},
      );
    case 3:
      return change((line) =>
        line.kind === 'part' ? { unitPrice: figure(50), qty: String(roll(5) - 1) } : line.kind === 'fee' ? { amount: `-${figure(9)}` } : {},
      );
    case 4:
      return change((line) => (line.kind === 'operation' ? { extraHours: roll(2) === 0 ? null : { hours: figure(2), reason: '' } } : {}));
    case 5:
      return change((line) => (line.kind === 'operation' ? { labourClass: [null, 'general', 'electrical', 'gone'][roll(4)]! } : {}));
    case 6:
      return change((line) =>
        line.kind === 'operation'
          ? {
              parts:
                roll(2) === 0
                  ? []
                  : [
                      {
                        part: ['seal', 'pump', 'coolant'][roll(3)]!,
                        qty: null,
                        unitPrice: figure(20),
                        cost: null,
                        condition: null,
                        omit: roll(4) === 0,
                      },
                    ],
            }
          : {},
      );
    case 7:
      return { ...estimate, lines: lines.toSpliced(roll(lines.length + 1), 0, added()) };
    case 8:
      return at < 0 || lines.length < 4 ? estimate : { ...estimate, lines: lines.toSpliced(at, 1) };
    case 9:
      return at < 0 ? estimate : { ...estimate, lines: lines.toSpliced(at, 1).toSpliced(roll(lines.length), 0, lines[at]!) };
    // Two far apart at once: all between them is looked at, and must come out as it was.
    case 10:
      return edit(edit(estimate, roll, made), roll, made);
    // All the lines of one operation at once: carriers, inclusions and deductions move together.
    case 11: {
      const operation = OPERATIONS[roll(OPERATIONS.length)]!;
      const decision = DECISIONS[roll(3)]!;
      return {
        ...estimate,
        lines: lines.map((line) => (line.kind === 'operation' && line.operation === operation ? { ...line, decision } : line)),
      };
    }
    case 12:
      return change(() => ({ taxes: [null, [], ['state'], ['state', 'city']][roll(4)]! }));
    case 13:
      return { ...estimate, customer: { ...estimate.customer, taxExempt: [[], ['state'], ['city'], ['state', 'city']][roll(4)]! } };
    default:
      return {
        ...estimate,
        discounts:
          roll(3) === 0
            ? []
            : [
                {
                  id: 'd',
                  title: 'Discount',
                  percent: String(roll(40)),
                  amount: null,
                  on: (['labour', 'part'] as const).slice(0, 1 + roll(2)),
                  lines: at < 0 || roll(2) === 0 ? [] : [lines[at]!.id],
                },
                ...(roll(2) === 0
                  ? []
                  : [
                      { id: 'e', title: 'Another', percent: null, amount: figure(60), on: ['part', 'supplies', 'fee'] as const, lines: [] },
                    ]),
              ].map((discount) => ({ ...discount, on: [...discount.on] })),
      };
  }
}

describe.each<[string, Partial<RatesDoc>]>([
  ['tax once for the total', CARD],
  ['tax line by line', { ...CARD, taxRounding: 'line' }],
  ['tax in the price', { ...CARD, pricesIncludeTax: true }],
])(`after each of ${EDITS} edits, %s`, (_, card) => {
  it('the figures are those of a first run, and what is untouched keeps its object', () => {
    const { estimate: start, catalogue, rates, pricer } = documents(card, [...startLines(), ...moreLines()]);
    const roll = seeded(20_260_302);
    const made = { n: 0 };
    let estimate = start;
    let before = pricer.price(estimate);
    let kept = 0;
    let changed = 0;
    let included = 0;
    let deducted = 0;
    for (let n = 0; n < EDITS; n += 1) {
      const next = edit(estimate, roll, made);
      const priced = pricer.price(next);
      const fresh = priceEstimate({ estimate: next, catalogue, rates });
      expect(priced, `edit ${n}`).toEqual(fresh);
      assertAddsUp(priced, { pricesIncludeTax: card.pricesIncludeTax ?? false });
      for (const line of priced.lines) included += line.includedIn === null ? 0 : 1;
      deducted += priced.overlap.pairs.length;
      if (next.customer === estimate.customer) {
        const known = new Map(estimate.lines.map((line, i) => [line, before.lines[i]!]));
        next.lines.forEach((line, i) => {
          const same = known.get(line);
          if (same === undefined) return;
          // An untouched line is printed anew only when its share of the work has become another one, or the line that it is part of.
          if (same.includedIn !== null && !next.lines.some((outer) => outer.id === same.includedIn && known.has(outer))) return;
          if (JSON.stringify(same) === JSON.stringify(priced.lines[i])) {
            expect(priced.lines[i], `edit ${n}, line ${line.id}`).toBe(same);
            kept += 1;
          } else changed += 1;
        });
      }
      [estimate, before] = [next, priced];
    }
    expect(kept).toBeGreaterThan(2.5 * EDITS);
    expect(changed).toBeGreaterThan(EDITS / 40);
    expect(included).toBeGreaterThan(EDITS / 2);
    expect(deducted).toBeGreaterThan(EDITS);
  }, 30_000);
});

describe('one edit', () => {
  const lines = startLines();

  it("of a part's price leaves all other lines as they are", () => {
    const { estimate, pricer } = documents(CARD, lines);
    const before = pricer.price(estimate);
    const next = { ...estimate, lines: estimate.lines.with(5, { ...estimate.lines[5]!, unitPrice: '99.00' } as Line) };
    const after = pricer.price(next);
    expect(after.lines.filter((line, i) => line !== before.lines[i]).map(({ id }) => id)).toEqual(['l5']);
    expect(after.overlap.steps).toBe(before.overlap.steps);
    expect(after.cautions).toBe(before.cautions);
  });

  it('of nothing leaves everything as it is', () => {
    const { estimate, pricer } = documents(CARD, lines);
    const before = pricer.price(estimate);
    const after = pricer.price({ ...estimate });
    expect(after).toEqual(before);
    expect(after.lines.every((line, i) => line === before.lines[i])).toBe(true);
  });

  it('of a line that carries re-shares: only those that share with it change', () => {
    const { estimate, pricer } = documents(CARD, lines);
    const before = pricer.price(estimate);
    const after = pricer.price({ ...estimate, lines: estimate.lines.with(1, { ...estimate.lines[1]!, decision: 'declined' }) });
    // The pump carried the drain (now the hose), the tray (shared with belt and drain) and includes nothing that is asked for.
    expect(after.lines.filter((line, i) => line !== before.lines[i]).map(({ id }) => id)).toEqual(expect.arrayContaining(['l0', 'l1']));
    expect(after.lines[3]).toBe(before.lines[3]);
    expect(after.lines[4]).toBe(before.lines[4]);
    expect(after.lines[10]).toBe(before.lines[10]);
  });
});

describe('discounts, spread as they were where they can be', () => {
  const discounted = (lines: string[]) => {
    const { estimate, ...others } = documents(CARD, [
      partLine('a', '1', '33.33'),
      partLine('b', '1', '33.33'),
      partLine('c', '1', '9.99'),
      labourLine('d', '1'),
    ]);
    return {
      estimate: { ...estimate, discounts: [{ id: 'x', title: 'Off parts', percent: '10', amount: null, on: ['part' as const], lines }] },
      ...others,
    };
  };

  it('a charge that they do not name may change', () => {
    const { estimate, catalogue, rates, pricer } = discounted([]);
    const before = pricer.price(estimate);
    const next = { ...estimate, lines: estimate.lines.with(3, { ...estimate.lines[3]!, hours: '2' } as Line) };
    const after = pricer.price(next);
    expect(after).toEqual(priceEstimate({ estimate: next, catalogue, rates }));
    expect(after.charges[0]).toBe(before.charges[0]);
    // 7.67 over 33.33 : 33.33 : 9.99 → 3.335…, 3.335…, 0.999…; floors 3.33 + 3.33 + 0.99, the two cents left go to c and a.
    expect(after.charges.slice(0, 3).map(({ discount }) => discount)).toEqual(['3.34', '3.33', '1.00']);
  });

  it('two charges of the same price that change places keep what is theirs', () => {
    const { estimate, catalogue, rates, pricer } = discounted(['a']);
    pricer.price(estimate);
    const [a, b, ...rest] = estimate.lines;
    const next = { ...estimate, lines: [b!, a!, ...rest] };
    expect(pricer.price(next)).toEqual(priceEstimate({ estimate: next, catalogue, rates }));
    expect(
      pricer
        .price(next)
        .charges.map(({ discount }) => discount)
        .slice(0, 2),
    ).toEqual(['0.00', '3.33']);
  });

  it('a charge with other taxes on it is taken for another one', () => {
    const { estimate, catalogue, rates, pricer } = discounted([]);
    pricer.price(estimate);
    const next = { ...estimate, lines: estimate.lines.with(0, { ...estimate.lines[0]!, taxes: [] }) };
    expect(pricer.price(next)).toEqual(priceEstimate({ estimate: next, catalogue, rates }));
  });
});

it('asking for a total in between does not disturb the next price', () => {
  const { estimate, catalogue, rates, pricer } = documents(CARD, startLines());
  pricer.price(estimate);
  const one = pricer.total(estimate, new Set(['l1']));
  expect(one.toFixed(2)).toBe(priceEstimate({ estimate, catalogue, rates }, { only: ['l1'] }).totals.total);
  expect(pricer.price(estimate)).toEqual(priceEstimate({ estimate, catalogue, rates }));
});
