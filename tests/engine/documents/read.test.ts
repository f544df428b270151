/** Bad input of every kind: a clear refusal, quick, and never a throw. */
import { describe, expect, it } from 'vitest';
import {
  parseCatalogue,
  parseEstimate,
  parseRates,
  priceEstimate,
  proposeLines,
  deferralCosts,
  checkCatalogue,
  checkRates,
} from '../../../src/index.js';
import { LIMITS } from '../../../src/documents/limits.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aRateCard,
  aStep,
  aTax,
  labourLine,
  operationLine,
  partLine,
} from '../../support/builders.js';

const PARSERS = [
  ['catalogue', parseCatalogue],
  ['rate card', parseRates],
  ['estimate', parseEstimate],
] as const;
const valid = { catalogue: aCatalogue(), 'rate card': aRateCard(), estimate: anEstimate([]) };

/** Far above what any of these takes, far below what a person would wait: hangs are caught, slow machines are not. */
const QUICK = 10_000;

describe.each(PARSERS)('%s', (name, parse) => {
  const codes = (json: unknown): string[] => {
    const read = parse(json);
    expect(read.ok).toBe(false);
    for (const { message, hint } of read.problems) {
      expect(message).toMatch(/\S.*\.$/s);
      expect(hint ?? 'none').not.toBe('');
    }
    return read.problems.map(({ code }) => code);
  };

  it.each([
    ['', 'empty-text'],
    [' \n\t ', 'empty-text'],
    ['null', 'not-an-object'],
    ['[]', 'not-an-object'],
    ['"text"', 'not-an-object'],
    ['5', 'not-an-object'],
    ['{', 'not-json'],
    ['<html></html>', 'not-json'],
    ['\u0000', 'not-json'],
  ])('text %j: %s', (text, code) => expect(codes(text)).toEqual([code]));

  it.each([[null], [undefined], [5], [true], [[]], [() => 1], [Symbol('x')], [10n]])('value %s: not an object', (value) => {
    expect(codes(value)).toEqual(['not-an-object']);
  });

  it('an empty object lacks its format, version and id', () => {
    const read = parse({});
    expect(read.problems.filter(({ path }) => ['format', 'version', 'id'].includes(path)).map(({ code }) => code)).toEqual(
      Array(3).fill('missing'),
    );
  });

  it('a file cut off at any place is no JSON', () => {
    const text = JSON.stringify(valid[name]);
    for (let end = 1; end < text.length; end += 7) expect(codes(text.slice(0, end))).toEqual(['not-json']);
  });

  it('says which document it is about', () => {
    expect(parse('').problems[0]!.message).toContain(name);
    expect(parse('{').problems[0]!.message).toContain(name);
    expect(parse([]).problems[0]!.message).toContain(name);
  });

  it.each(['__proto__', 'constructor', 'hasOwnProperty', 'toString'])('a key %j is a key that the format does not have', (key) => {
    const text = JSON.stringify(valid[name]).replace('{', `{"${key}":{"id":"x"},`);
    const read = parse(text);
    expect(read.problems).toEqual([expect.objectContaining({ code: 'unknown-key', path: key })]);
    expect(Object.getPrototypeOf({})).not.toHaveProperty('id');
  });

  it('an object without a prototype is read like others', () => {
    expect(parse(Object.assign(Object.create(null), valid[name])).ok).toBe(true);
  });

  it('leaves what it was given as it was, and gives back another object', () => {
    const given = structuredClone(valid[name]);
    const read = parse(given);
    expect(given).toEqual(valid[name]);
    expect(read.ok && (read.value as object) === given).toBe(false);
  });

  it('an object that throws when it is read is refused', () => {
    expect(
      codes({
        get format(): string {
          throw new Error('no');
        },
      }),
    ).toEqual(['unreadable']);
    expect(
      codes(
        new Proxy(
          {},
          {
            ownKeys: () => {
              throw new Error('no');
            },
          },
        ),
      ),
    ).toEqual(['unreadable']);
  });

  it('an object that holds itself is refused', () => {
    const ring: Record<string, unknown> = { ...valid[name] };
    ring.extra = { ring };
    expect(codes(ring)).toEqual(['too-large']);
  });

  it(
    '10 MB of nonsense is refused',
    () => {
      expect(codes('x'.repeat(10_000_000))).toEqual(['too-large']);
      expect(codes(`"${'x'.repeat(10_000_000)}`)).toEqual(['too-large']);
      expect(codes({ ...valid[name], id: 'x'.repeat(10_000_000) })).toEqual(['id']);
    },
    QUICK,
  );

  it(
    '10,000 levels are refused, in objects and in lists, as text and as a value',
    () => {
      const deep = `${'{"a":'.repeat(10_000)}1${'}'.repeat(10_000)}`;
      expect(codes(deep)).toEqual(['too-large']);
      expect(codes(`{"a":${'['.repeat(10_000)}${']'.repeat(10_000)}}`)).toEqual(['too-large']);
      expect(codes(JSON.parse(deep))).toEqual(['too-large']);
      expect(codes('['.repeat(3_000_000))).toEqual(['not-json']);
    },
    QUICK,
  );

  it(
    '100,000 entries of a list are refused with their number',
    () => {
      const list = { catalogue: 'operations', 'rate card': 'fees', estimate: 'lines' }[name];
      const read = parse({ ...valid[name], [list]: Array.from({ length: 100_000 }, () => ({})) });
      expect(read.problems.map(({ code }) => code)).toEqual(['too-large']);
      expect(read.problems[0]!.message).toContain('100000 entries');
    },
    QUICK,
  );

  it(
    'a hundred thousand unknown keys are told by the first two hundred and a count',
    () => {
      const many = Object.fromEntries(Array.from({ length: 100_000 }, (_, i) => [`k${i}`, i]));
      const read = parse({ ...valid[name], ...many });
      expect(read.ok).toBe(false);
      expect(read.problems.length).toBeLessThanOrEqual(LIMITS.problems + 1);
    },
    QUICK,
  );
});

describe('many problems', () => {
  const broken = Array.from({ length: 500 }, (_, i) => ({ ...partLine(`l${i}`, '1', '1'), cost: 5 }));

  it('are told up to two hundred; the rest is counted', () => {
    const { problems } = parseEstimate({ ...anEstimate([]), lines: broken });
    expect(problems.length).toBe(LIMITS.problems + 1);
    expect(problems.at(-1)).toMatchObject({ code: 'more-problems', path: '' });
    expect(problems.at(-1)!.message).toContain('300 more');
  });

  it('errors are told before warnings', () => {
    const lost = Array.from({ length: 300 }, (_, i) => ({ id: `l${i}`, kind: 'operation', operation: 'o', findings: ['gone'] }));
    const last = { id: 'last', kind: 'operation', operation: 'o', positions: ['left', 'left'] };
    const read = parseEstimate({ ...anEstimate([]), lines: [...lost, last] });
    expect(read.ok).toBe(false);
    expect(read.problems[0]).toMatchObject({ severity: 'error', code: 'duplicate', path: 'lines[300].positions[1]' });
    expect(read.problems[1]).toMatchObject({ severity: 'warning' });
  });
});

describe('documents made to be slow', () => {
  it(
    '900 steps that each need all the others',
    () => {
      const ids = Array.from({ length: 900 }, (_, i) => `s${i}`);
      const read = parseCatalogue(aCatalogue({ steps: ids.map((id) => aStep(id, '0', { needs: ids.filter((other) => other !== id) })) }));
      expect(read.problems.some(({ code }) => code === 'cycle')).toBe(true);
      expect(read.problems.length).toBeLessThanOrEqual(LIMITS.problems + 1);
    },
    QUICK,
  );

  const chain = (length: number) => ({
    steps: Array.from({ length }, (_, i) => aStep(`s${i}`, '0', { needs: i === length - 1 ? [] : [`s${i + 1}`] })),
    operations: Array.from({ length }, (_, i) =>
      anOperation(`o${i}`, '1', { steps: i === 0 ? ['s1'] : [], includes: i === length - 1 ? [] : [`o${i + 1}`] }),
    ),
  });

  it(
    'a chain as long as may be is let in; one of 5,000 steps and operations is refused',
    () => {
      expect(parseCatalogue(aCatalogue(chain(LIMITS.reach + 1))).ok).toBe(true);
      const codes = parseCatalogue(aCatalogue(chain(LIMITS.reach + 2))).problems.map(({ code, path }) => `${code} ${path}`);
      expect(codes).toEqual(['too-many steps[0].needs', 'too-many operations[0].steps', 'too-many operations[0].includes']);
      expect(parseCatalogue(aCatalogue(chain(5000))).problems[0]!.code).toBe('too-many');
    },
    QUICK,
  );

  it(
    '1,000 steps that each need all before them, in 1,000 operations',
    () => {
      const ids = Array.from({ length: 1000 }, (_, i) => `s${i}`);
      const steps = ids.map((id, i) => aStep(id, '0', { needs: ids.slice(0, i) }));
      const operations = ids.map((id) => anOperation(`o-${id}`, '1', { steps: [ids.at(-1)!] }));
      expect(parseCatalogue(aCatalogue({ steps, operations })).problems[0]!.code).toBe('too-many');
    },
    QUICK,
  );

  it('more taxes, discounts and positions than make sense', () => {
    const ids = Array.from({ length: LIMITS.taxes + 1 }, (_, i) => `x${i}`);
    const codes = (read: { problems: readonly { code: string; path: string }[] }): string[] =>
      read.problems.map(({ code, path }) => `${code} ${path}`);
    expect(codes(parseRates(aRateCard({ taxes: ids.map((id) => aTax(id, '1')) })))).toEqual(['too-many taxes']);
    expect(codes(parseEstimate(anEstimate([operationLine('l', 'o', { positions: ids })])))).toEqual(['too-many lines[0].positions']);
    const discounts = ids.map((id) => ({ id, title: id, percent: '1', amount: null, on: ['labour' as const], lines: [] }));
    expect(codes(parseEstimate(anEstimate([], { discounts })))).toEqual(['too-many discounts']);
    expect(parseRates(aRateCard({ taxes: ids.slice(1).map((id) => aTax(id, '1')) })).ok).toBe(true);
  });

  it(
    '60 taxes in the price, on lines with as many different sets of them',
    () => {
      const ids = Array.from({ length: 60 }, (_, i) => `x${i}`);
      const rates = aRateCard({ taxes: ids.map((id) => aTax(id, '1.2345')), pricesIncludeTax: true });
      const lines = ids.map((id, i) => labourLine(`l-${id}`, '1', { taxes: ids.slice(0, i) }));
      expect(priceEstimate({ estimate: anEstimate(lines), catalogue: aCatalogue(), rates } as never).totals.total).toBe('6000.00');
    },
    QUICK,
  );

  it(
    '600 operations over one step, none declared to overlap',
    () => {
      const operations = Array.from({ length: 600 }, (_, i) => anOperation(`o${i}`, '1', { steps: ['s'] }));
      expect(checkCatalogue(aCatalogue({ steps: [aStep('s', '0.5')], operations }))).toEqual([]);
    },
    QUICK,
  );
});

it('no public function throws at documents that are none', () => {
  for (const none of [undefined, null, '', '[]', {}, [], 5]) {
    const documents = { estimate: none, catalogue: none, rates: none } as never;
    expect(priceEstimate(documents).complete).toBe(false);
    expect(deferralCosts(documents)).toEqual({});
    expect(proposeLines(none as never, none as never).problems.length).toBeGreaterThan(0);
    expect(checkCatalogue(none).length).toBeGreaterThan(0);
    expect(checkRates(none).length).toBeGreaterThan(0);
  }
  expect(priceEstimate(undefined as never).complete).toBe(false);
});
