/** What must hold for any estimate, whatever the figures. Each property says under which conditions it is true, and why. */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PricedEstimate, deferralCosts, parseCatalogue, parseEstimate, parseRates, priceEstimate } from '../../src/index.js';
import {
  type Drawing,
  decimalString,
  forAll,
  randomCatalogue,
  randomDocuments,
  randomOperationLine,
  randomRates,
} from '../support/arbitraries.js';
import {
  aCatalogue,
  aRateCard,
  aTax,
  anEstimate,
  anOperation,
  feeLine,
  operationLine,
  priceDocuments,
  readDocuments,
} from '../support/builders.js';
import type { CatalogueDoc, DiscountDoc, Documents, LineDoc } from '../support/oracle-documents.js';
import { Fraction, ONE, ZERO, least, most, percentOf, sum } from '../support/oracle-fraction.js';
import { heaviestForest, unionHours } from '../support/oracle-brute-force.js';
import { HOSTILE, places, setOwn } from '../support/oracle-hostile.js';
import { asDeclared, asSteps, inCommon, weigh } from '../support/oracle-sets.js';

const added = (figures: readonly string[]): Fraction => sum(figures.map((figure) => Fraction.of(figure)));
const chargedHours = (priced: PricedEstimate): Fraction => added(priced.lines.map((line) => line.chargedHours));
const lineOf = (priced: PricedEstimate, id: string): PricedEstimate['lines'][number] => priced.lines.find((line) => line.id === id)!;
const atLeast = (a: Fraction, b: Fraction, what: string): void => {
  expect(a.compare(b), `${what}: ${a} is not at least ${b}`).toBeGreaterThanOrEqual(0);
};

/** A card with the same rate for every labour class of the random catalogues. */
const ONE_RATE = aRateCard({
  labourClasses: ['general', 'electrical', 'body'].map((id) => ({ id, title: id, rate: '100.00' })),
});

function shuffled<T>(d: Drawing, list: readonly T[]): T[] {
  const from = [...list];
  return list.map(() => from.splice(d.int(0, from.length - 1), 1)[0]!);
}

/** An estimate of operations alone, one line or more of each, out of a random catalogue. */
function operationsOnly(d: Drawing, catalogue: CatalogueDoc, most = 7): Documents {
  const lines = Array.from({ length: d.int(1, most) }, (_, i) => ({
    ...randomOperationLine(d, `l${i}`, catalogue),
    parts: [],
  }));
  return { estimate: anEstimate(lines), catalogue, rates: randomRates(d) };
}

/**
 * Operations that share steps and nothing else: no inclusions, no declared overlaps, no own words about parts. Rates are
 * whole, hours have two decimals at most, parts cost whole units: every charge is a whole number of cents, and so
 * no rounding stands between the rule and the figure.
 */
function stepBased(d: Drawing): Documents {
  const drawn = randomCatalogue(d);
  const catalogue = {
    ...drawn,
    overlaps: [],
    operations: drawn.operations.map((operation) => ({ ...operation, includes: [] })),
    parts: drawn.parts.map((part) => ({ ...part, cost: String(d.int(0, 90)), core: String(d.int(0, 9)) })),
  };
  const rates = aRateCard({
    labourClasses: ['general', 'electrical', 'body'].map((id) => ({
      id,
      title: id,
      rate: String(d.pick([90, 120, 120, 151])),
    })),
  });
  return { ...operationsOnly(d, catalogue), rates };
}

describe('order of entry', () => {
  it('never changes the hours', () =>
    forAll(300, (d) => {
      const documents = randomDocuments(d);
      const other = {
        ...documents,
        estimate: { ...documents.estimate, lines: shuffled(d, documents.estimate.lines) },
      };
      expect(chargedHours(priceDocuments(other)).toString()).toBe(chargedHours(priceDocuments(documents)).toString());
    }));

  /**
   * Where lines tie for a step, another of them carries it: its hours and parts move, the sum stays, as long as nothing is
   * rounded and no line has words of its own about the parts or taxes. With declared overlaps it holds for one rate only: a
   * deduction is worth the rate of the line that deducts, and lines that tie may take each other's place in the tree.
   */
  it('never changes the total where nothing is rounded', () =>
    forAll(300, (d) => {
      const documents = stepBased(d);
      const other = { ...documents, estimate: anEstimate(shuffled(d, documents.estimate.lines)) };
      expect(priceDocuments(other).totals.total).toBe(priceDocuments(documents).totals.total);
    }));
});

describe('what a line costs alone', () => {
  it('one unit costs its book hours, with every step it needs', () =>
    forAll(300, (d) => {
      const catalogue = randomCatalogue(d);
      const operation = d.pick(catalogue.operations);
      const positions = d.chance(50) ? ['left-front'] : [];
      const documents = {
        estimate: anEstimate([operationLine('l', operation.id, { positions })]),
        catalogue,
        rates: ONE_RATE,
      };
      const priced = priceDocuments(documents);
      const line = lineOf(priced, 'l');
      expect([line.bookHours, line.chargedHours, line.sharedHours]).toEqual([operation.bookHours, operation.bookHours, '0']);
      expect(Fraction.of(priced.totals.labour).toString()).toBe(Fraction.of(operation.bookHours).times(Fraction.of(100)).toString());
    }));
});

describe('bounds', () => {
  /**
   * Together the work is never below any line alone, since each edge of a tree is at most the own hours of either end; an
   * included line is left out, for by extra hours or positions it may be longer than the line that includes it.
   */
  it('every line alone <= charged together <= sum of book hours', () =>
    forAll(300, (d) => {
      const documents = operationsOnly(d, randomCatalogue(d));
      const priced = priceDocuments(documents);
      const together = chargedHours(priced);
      atLeast(added(priced.lines.map((line) => line.bookHours)), together, 'sum of book hours');
      for (const { id } of priced.lines.filter((line) => line.includedIn === null)) {
        atLeast(together, chargedHours(priceDocuments(documents, { only: new Set([id]) })), `charged hours against ${id} alone`);
      }
    }));

  /** One unit each, and no included line longer by override or extra hours: then a line alone is its book hours. */
  it('longest book hours <= charged', () =>
    forAll(300, (d) => {
      const catalogue = randomCatalogue(d);
      const lines = d.some(catalogue.operations, 70).map(({ id }) => operationLine(`l-${id}`, id));
      const priced = priceDocuments({ estimate: anEstimate(lines), catalogue, rates: ONE_RATE });
      const longest = priced.lines.map((line) => Fraction.of(line.bookHours)).reduce(most, ZERO);
      atLeast(chargedHours(priced), longest, 'charged hours');
    }));
});

/** Freezes a value and all that is in it. */
function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) Object.values(Object.freeze(value)).forEach(frozen);
  return value;
}

describe('what is given', () => {
  it('is not changed, and gives the same price again, as values or as text', () =>
    forAll(100, (d) => {
      const documents = frozen(randomDocuments(d));
      const read = frozen(readDocuments(documents));
      const priced = priceEstimate(read);
      expect(priceEstimate(read)).toEqual(priced);
      expect(deferralCosts(read)).toEqual(deferralCosts(read));
      const texts = Object.entries(documents).map(([name, document]) => [name, JSON.stringify(document)]);
      expect(priceDocuments(Object.fromEntries(texts) as never)).toEqual(priced);
    }));

  it('does not include the settings of the shared decimal library', () =>
    forAll(30, (d) => {
      const documents = randomDocuments(d);
      const priced = priceDocuments(documents);
      const { precision, rounding, toExpNeg, toExpPos } = Decimal;
      Decimal.set({ precision: 3, rounding: Decimal.ROUND_UP, toExpNeg: 0, toExpPos: 0 });
      try {
        expect(priceDocuments(documents)).toEqual(priced);
      } finally {
        Decimal.set({ precision, rounding, toExpNeg, toExpPos });
      }
    }));
});

describe('declining and waiting', () => {
  /**
   * True for work that shares steps alone: the cost of a step is its hours at the dearest rate that needs it, which falls
   * with every line taken away. Not true with an inclusion (declining the large job leaves the small ones, which may cost
   * more together), with declared overlaps (one line may have been deducted from several), with words of a line about its
   * parts or taxes, or where a discount by amount, a minimum of supplies or a rounding of many small charges stands in between.
   */
  it('declining a line never raises a step-based total', () =>
    forAll(300, (d) => {
      const documents = stepBased(d);
      const { lines } = documents.estimate;
      const decline = d.pick(lines).id;
      const after = {
        ...documents,
        estimate: anEstimate(lines.map((line): LineDoc => (line.id === decline ? { ...line, decision: 'declined' } : line))),
      };
      const [before, left] = [priceDocuments(documents), priceDocuments(after)];
      atLeast(Fraction.of(before.totals.total), Fraction.of(left.totals.total), 'total before');
      expect(lineOf(left, decline)).toMatchObject({
        priced: false,
        chargedHours: '0',
        amount: '0.00',
        carries: [],
        uses: [],
      });
    }));

  /** The cost of steps is submodular, so what a line adds falls with the company it keeps: waiting cannot be cheaper. */
  it('waiting never saves on step-based work', () =>
    forAll(150, (d) => {
      for (const [id, { extra }] of Object.entries(deferralCosts(readDocuments(stepBased(d))))) {
        atLeast(Fraction.of(extra), ZERO, `extra of ${id}`);
      }
    }));

  /** Three totals with a tax rounded in each: at most a cent and a half, so at most a cent below nothing. */
  it('waiting never saves with tax, up to the rounding', () =>
    forAll(150, (d) => {
      const documents = stepBased(d);
      const rates = { ...documents.rates, taxes: [aTax('sales', d.figure(20000, 3))] };
      for (const [id, { extra }] of Object.entries(deferralCosts(readDocuments({ ...documents, rates })))) {
        atLeast(Fraction.of(extra), Fraction.of('-0.01'), `extra of ${id}`);
      }
    }));
});

describe('shared work against brute force', () => {
  it('steps: exactly the union of the sets', () =>
    forAll(300, (d) => {
      const drawn = randomCatalogue(d);
      const catalogue = {
        ...drawn,
        overlaps: [],
        operations: drawn.operations.map((each) => ({ ...each, includes: [] })),
      };
      const { estimate } = operationsOnly(d, catalogue);
      const lines = estimate.lines.map((line): LineDoc => ({ ...line, bookHours: undefined, extraHours: undefined }) as LineDoc);
      const documents = { estimate: anEstimate(lines), catalogue, rates: ONE_RATE };
      expect(chargedHours(priceDocuments(documents)).toString()).toBe(unionHours(documents).toString());
    }));

  it('declared overlaps: the heaviest of all spanning forests of up to six operations', () =>
    forAll(150, (d) => {
      const count = d.int(2, 6);
      const books = Array.from({ length: count }, () => d.int(1, 30));
      const operations = books.map((hours, i) => anOperation(`o${i}`, decimalString(hours, 1)));
      const edges: { a: number; b: number; weight: Fraction }[] = [];
      const overlaps: CatalogueDoc['overlaps'] = [];
      for (let a = 0; a < count; a += 1) {
        for (let b = a + 1; b < count; b += 1) {
          if (d.chance(25)) continue;
          const hours = d.figure(20, 1);
          const shorter = least(Fraction.of(operations[a]!.bookHours), Fraction.of(operations[b]!.bookHours));
          edges.push({ a, b, weight: least(Fraction.of(hours), shorter) });
          overlaps.push({ between: [`o${a}`, `o${b}`], hours });
        }
      }
      const lines = shuffled(d, operations).map(({ id }) => operationLine(`l-${id}`, id));
      const priced = priceDocuments({
        estimate: anEstimate(lines),
        catalogue: aCatalogue({ operations, overlaps }),
        rates: aRateCard(),
      });
      expect(Fraction.of(priced.overlap.hours).toString()).toBe(heaviestForest(count, edges).toString());
      expect(priced.overlap.pairs.length).toBeLessThan(count);
    }));

  /** Bonferroni; Hunter (1976) and Worsley (1982); Kounias (1968): the inequalities are READ, the sets are random. */
  it('S1 - S2 <= union <= Hunter-Worsley <= Kounias <= S1', () =>
    forAll(200, (d) => {
      const letters = [...'abcdef'];
      const weights = Object.fromEntries(letters.map((letter) => [letter, d.int(1, 9)]));
      const sets = Array.from({ length: d.int(2, 6) }, () =>
        [d.pick(letters), ...letters].filter((letter, i, all) => all.indexOf(letter) === i && (i === 0 || d.chance(35))).join(''),
      );
      const pair = (i: number, j: number): number => weigh(inCommon(sets[i]!, sets[j]!), weights);
      const indices = sets.map((_, i) => i);
      const s1 = indices.reduce((total, i) => total + weigh(sets[i]!, weights), 0);
      const s2 = indices.reduce((total, i) => total + indices.slice(i + 1).reduce((sub, j) => sub + pair(i, j), 0), 0);
      const star = (j: number): number => indices.reduce((total, i) => total + (i === j ? 0 : pair(i, j)), 0);
      const kounias = s1 - Math.max(...indices.map(star));
      const union = Number(chargedHours(priceDocuments(asSteps(sets, weights))).toString());
      const hunter = Number(chargedHours(priceDocuments(asDeclared(sets, weights))).toString());
      expect(union).toBe(weigh(new Set(sets.join('')), weights));
      const bounds = [s1 - s2, union, hunter, kounias, s1];
      expect(bounds).toEqual([...bounds].sort((a, b) => a - b));
    }));
});

/** Fees of the given cents with one discount on them all. */
function discounted(cents: readonly number[], figures: Pick<DiscountDoc, 'percent' | 'amount'>): PricedEstimate {
  const lines = cents.map((each, i) => feeLine(`l${i}`, decimalString(each, 2)));
  const discounts = [{ id: 'd', title: 'Discount', ...figures, on: ['fee' as const], lines: [] }];
  return priceDocuments({
    estimate: anEstimate(lines, { discounts }),
    catalogue: aCatalogue(),
    rates: aRateCard(),
  });
}

describe('discounts', () => {
  const drawCents = (d: Drawing): number[] => [
    d.int(1, 99999),
    ...Array.from({ length: d.int(0, 8) }, () => (d.chance(20) ? -d.int(0, 9000) : d.int(0, 50000))),
  ];

  it('the parts add up to the whole, which is the amount or what is left', () =>
    forAll(400, (d) => {
      const cents = drawCents(d);
      const byPercent = d.chance(50);
      const percent = d.figure(1300, 1);
      const amount = d.figure(90000, 2);
      const priced = discounted(cents, byPercent ? { percent, amount: null } : { percent: null, amount });
      const base = added(cents.map((each) => decimalString(each, 2)));
      const wanted = (byPercent ? percentOf(percent, base) : Fraction.of(amount)).rounded(Fraction.of('0.01'), 'half-up');
      const whole = base.sign <= 0 ? ZERO : least(wanted, base);
      expect(added(priced.charges.map(({ discount }) => discount)).toString()).toBe(whole.toString());
      expect(Fraction.of(priced.totals.discount).toString()).toBe(whole.toString());
    }));

  it('each part is its share to within a cent, and the extra cents go to the largest remainders', () =>
    forAll(400, (d) => {
      const cents = drawCents(d);
      const priced = discounted(cents, { percent: null, amount: d.figure(30000, 2) });
      const base = added(priced.charges.map(({ amount }) => amount));
      const whole = Fraction.of(priced.totals.discount);
      if (whole.isZero) return;
      const hundred = Fraction.of(100);
      const shares = priced.charges.map(({ amount, discount }) => {
        const exact = whole.times(Fraction.of(amount)).over(base).times(hundred);
        const floor = new Fraction(exact.floor());
        return { remainder: exact.minus(floor), extra: Fraction.of(discount).times(hundred).minus(floor) };
      });
      for (const { extra } of shares) expect(extra.isZero || extra.equals(ONE)).toBe(true);
      const lucky = shares.filter(({ extra }) => !extra.isZero).map(({ remainder }) => remainder);
      const unlucky = shares.filter(({ extra }) => extra.isZero).map(({ remainder }) => remainder);
      if (lucky.length > 0) atLeast(lucky.reduce(least), unlucky.reduce(most, ZERO), 'smallest remainder with an extra cent');
    }));

  it('a tie goes to the first', () => {
    const parts = (amount: string): string[] => discounted([100, 100, 100], { percent: null, amount }).charges.map((each) => each.discount);
    expect(parts('0.01')).toEqual(['0.01', '0.00', '0.00']);
    expect(parts('1.00')).toEqual(['0.34', '0.33', '0.33']);
    expect(parts('0.05')).toEqual(['0.02', '0.02', '0.01']);
  });
});

const PARSERS = { catalogue: parseCatalogue, rates: parseRates, estimate: parseEstimate };

/** Reads a value as each of the three documents: it must say yes or no, and why. */
function read(value: unknown): void {
  for (const [name, parse] of Object.entries(PARSERS)) {
    const parsed = parse(value);
    expect(typeof parsed.ok, name).toBe('boolean');
    if (parsed.ok) continue;
    expect(parsed.problems.length, name).toBeGreaterThan(0);
    for (const { message, code } of parsed.problems) expect([message, code].every((text) => text.length > 0)).toBe(true);
  }
}

describe('hostile input', () => {
  const untouched = JSON.stringify(Object.getOwnPropertyNames(Object.prototype));
  const stillUntouched = (): void => {
    expect(JSON.stringify(Object.getOwnPropertyNames(Object.prototype))).toBe(untouched);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  };

  it('any JSON value and any other value is refused in words, never by a throw', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        read(value);
        read(JSON.stringify(value));
      }),
      { numRuns: 400 },
    );
    fc.assert(fc.property(fc.anything({ withBigInt: true, withNullPrototype: true }), read), { numRuns: 400 });
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 200 }), read), { numRuns: 200 });
    stillUntouched();
  });

  it('named cases: nothing, rings, great depth, keys of the prototype', () => {
    const ring: Record<string, unknown> = { format: 'baysheet-rates', version: 1 };
    ring['self'] = ring;
    const deep: Record<string, unknown> = {};
    let end = deep;
    for (let i = 0; i < 50_000; i += 1) end = end['deeper'] = {};
    const keys = ['{"__proto__":{"polluted":true}}', '{"constructor":{"prototype":{"polluted":true}}}'];
    for (const value of [
      '',
      'null',
      null,
      undefined,
      [],
      '[]',
      '{',
      '{"format":',
      '['.repeat(100_000),
      ring,
      deep,
      ...keys,
      ...keys.map((key) => JSON.parse(key) as unknown),
      {
        get format(): string {
          throw new Error('no');
        },
      },
      new Proxy(
        {},
        {
          ownKeys: () => {
            throw new Error('no');
          },
        },
      ),
      Symbol('x'),
      () => 1,
      5n,
      Number.NaN,
      new Map(),
      new Date(0),
    ])
      read(value);
    stillUntouched();
  });

  it('a document cut off anywhere is refused', () =>
    forAll(30, (d) => {
      for (const document of Object.values(randomDocuments(d))) {
        const text = JSON.stringify(document);
        const cut = text.slice(0, d.int(0, text.length - 1));
        for (const parse of Object.values(PARSERS)) expect(parse(cut).ok).toBe(false);
      }
    }));

  it('documents with hostile values in them are refused or priced, never thrown at', () =>
    forAll(400, (d) => {
      const documents = structuredClone(randomDocuments(d)) as unknown as Record<keyof typeof PARSERS, unknown>;
      for (let times = d.int(1, 3); times > 0; times -= 1) {
        const { holder, key } = d.pick(places(documents).filter((place) => place.holder !== documents));
        if (d.chance(15)) delete holder[key];
        else setOwn(holder, d.chance(15) ? '__proto__' : key, d.pick([...HOSTILE, { polluted: true }]));
      }
      const parsed = {
        estimate: parseEstimate(documents.estimate),
        catalogue: parseCatalogue(documents.catalogue),
        rates: parseRates(documents.rates),
      };
      const raw = priceEstimate(documents as never);
      expect(typeof raw.complete).toBe('boolean');
      deferralCosts(documents as never);
      const { estimate, catalogue, rates } = parsed;
      if (estimate.ok && catalogue.ok && rates.ok) {
        const values = { estimate: estimate.value, catalogue: catalogue.value, rates: rates.value };
        expect(priceEstimate(values).totals).toEqual(raw.totals);
      } else {
        expect(raw.complete).toBe(false);
        expect(raw.problems.some(({ severity }) => severity === 'error')).toBe(true);
      }
      stillUntouched();
    }));
});
