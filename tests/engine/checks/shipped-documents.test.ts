/** Every document that comes with the project reads without a fault, prices, and has nothing to be warned of. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  checkCatalogue,
  checkRates,
  parseCatalogue,
  parseEstimate,
  parseRates,
  priceEstimate,
  printProblem,
  type Problem,
  proposeLines,
} from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';

const text = (path: string): string => readFileSync(path, 'utf8');
const serious = (problems: readonly Problem[]): string[] => problems.filter(({ severity }) => severity !== 'note').map(printProblem);

const cards = readdirSync('rates').filter((name) => /^card\..*\.json$/.test(name));
const catalogues = readdirSync('rates').filter((name) => /^catalogue\..*\.json$/.test(name));
const estimates = readdirSync('demo').filter((name) => name.endsWith('.estimate.json'));

it('nothing in rates/ is left out here', () => {
  expect(
    readdirSync('rates')
      .filter((name) => name.endsWith('.json'))
      .sort(),
  ).toEqual([...cards, ...catalogues].sort());
  expect([cards.length, catalogues.length, estimates.length].every((n) => n > 0)).toBe(true);
});

describe.each(catalogues)('rates/%s', (name) => {
  it('reads, and the checks find nothing to warn of', () => {
    const read = parseCatalogue(text(`rates/${name}`));
    expect(read.problems.map(printProblem)).toEqual([]);
    expect(read.ok).toBe(true);
    expect(serious(checkCatalogue(text(`rates/${name}`)))).toEqual([]);
  });
});

describe.each(cards)('rates/%s', (name) => {
  it('reads', () => {
    const read = parseRates(text(`rates/${name}`));
    expect(read.problems.map(printProblem)).toEqual([]);
    expect(read.ok).toBe(true);
  });
});

it('the checks find nothing to warn of in the demo card', () => {
  expect(serious(checkRates(text('rates/card.demo.json')))).toEqual([]);
});

describe.each(estimates)('demo/%s', (name) => {
  const json = {
    estimate: text(`demo/${name}`),
    catalogue: text('rates/catalogue.demo.json'),
    rates: text('rates/card.demo.json'),
  };

  it('reads', () => {
    const read = parseEstimate(json.estimate);
    expect(read.problems.map(printProblem)).toEqual([]);
    expect(read.ok).toBe(true);
  });

  it('prices completely with the demo catalogue and card', () => {
    const priced = priceEstimate(json as never);
    expect(priced.problems.map(printProblem)).toEqual([]);
    expect(priced.complete).toBe(true);
    assertAddsUp(priced);
  });

  it('prices with every card that has its labour classes and fees, and adds up', () => {
    for (const card of cards) {
      const priced = priceEstimate({ ...json, rates: text(`rates/${card}`) } as never);
      assertAddsUp(priced, { pricesIncludeTax: priced.pricesIncludeTax });
    }
  });
});

describe('the van of the demo', () => {
  const read = { estimate: parseEstimate(text('demo/van.estimate.json')), catalogue: parseCatalogue(text('rates/catalogue.demo.json')) };
  if (!read.estimate.ok || !read.catalogue.ok) throw new Error('the demo does not read');
  const { value: estimate } = read.estimate;
  const { value: catalogue } = read.catalogue;

  it('has one finding that the catalogue knows no remedy for, and it stays visible', () => {
    const { unanswered, lines } = proposeLines(estimate, catalogue);
    expect(unanswered).toEqual([{ finding: 'f14', reason: 'no-remedy' }]);
    expect(lines).toEqual(estimate.lines);
  });

  it('from its findings alone, every other finding is answered', () => {
    const { lines, unanswered } = proposeLines({ ...estimate, lines: [], discounts: [] }, catalogue);
    expect(unanswered.map(({ finding }) => finding)).toEqual(['f14']);
    const operations = lines.map((line) => (line.kind === 'operation' ? line.operation : ''));
    expect(new Set(operations).size).toBe(operations.length);
  });

  it('shares undertray, coolant and belt: doing it together saves hours', () => {
    const priced = priceEstimate({ estimate, catalogue, rates: text('rates/card.demo.json') } as never);
    const saving = priced.overlap.steps.filter(({ savedHours }) => savedHours !== '0').map(({ lines }) => lines.length);
    expect(saving.length).toBeGreaterThanOrEqual(3);
    expect(Math.max(...saving)).toBeGreaterThanOrEqual(3);
  });
});
