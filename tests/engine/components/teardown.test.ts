import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planTeardown, type TeardownPlan } from '../../../components/estimate/teardown.js';
import { teardownStops } from '../../../components/estimate/teardown-stops.js';
import { titlePlace } from '../../../components/estimate/teardown-title.js';
import { type Parsed, parseCatalogue, parseEstimate, parseRates, type PricedEstimate, priceEstimate } from '../../../src/index.js';
import { decimal, sum } from '../../../src/number/decimal.js';

const read = (path: string) => readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8');
const demo = must(parseCatalogue(read('rates/catalogue.demo.json')));
const rates = must(parseRates(read('rates/card.demo.json')));

describe('the worked check of the rules: plenum gasket and injector O-rings', () => {
  const plan = planOf(
    catalogueOf({
      steps: [
        { id: 'plenum', title: 'Plenum off and on', hours: '1.2' },
        { id: 'rail', title: 'Rail off and on', hours: '0.5' },
      ],
      operations: [
        { id: 'gasket', title: 'Gasket', bookHours: '2.0', steps: ['plenum'] },
        { id: 'rings', title: 'O-rings', bookHours: '2.6', steps: ['plenum', 'rail'] },
      ],
    }),
    ['gasket', 'rings'],
  );

  test('the plenum is one block over both rows, carried by the O-rings', () => {
    expect(plan.steps).toHaveLength(2);
    expect(plan.steps[0]).toMatchObject({
      mark: 'A',
      title: 'Plenum off and on',
      x: 0,
      width: 1.2,
      runs: [{ top: 0, lanes: 2 }],
    });
    expect(plan.steps[0]!.carried.top).toBe(plan.rows.findIndex(({ line }) => line.title === 'O-rings'));
  });

  test('the rail stands beside it in one row', () => {
    expect(plan.steps[1]).toMatchObject({ mark: 'B', x: 1.2, width: 0.5, runs: [{ lanes: 1 }] });
  });

  test('own work is what is left of the book hours, in decimal', () => {
    const own = Object.fromEntries(plan.rows.map((row) => [row.line.title, row.own]));
    expect(own).toEqual({ Gasket: '0.8', 'O-rings': '0.9' });
  });

  test('every block says in words what it is', () => {
    expect(teardownStops(plan, 'en').map(({ name }) => name.replaceAll('\u00a0', ' '))).toEqual([
      'Gasket, own work 0.8 h, charged 0.8 h of 2 h',
      'A: Plenum off and on, 1.2 h, needed by 2 lines, carried by O-rings',
      'B: Rail off and on, 0.5 h, needed by 1 line, carried by O-rings',
      'O-rings, own work 0.9 h, charged 2.6 h of 2.6 h',
    ]);
  });
});

describe('declared overlaps and included lines', () => {
  const plan = planOf(
    catalogueOf({
      operations: [
        { id: 'a', title: 'A', bookHours: '3.5' },
        { id: 'b', title: 'B', bookHours: '1.25' },
        { id: 'c', title: 'C', bookHours: '2' },
        { id: 'd', title: 'D', bookHours: '2.8' },
        { id: 'whole', title: 'Whole', bookHours: '4', includes: ['c'] },
      ],
      overlaps: [
        { between: ['a', 'b'], hours: '0.75' },
        { between: ['a', 'd'], hours: '1.4' },
      ],
    }),
    ['c', 'a', 'b', 'd', 'whole'],
  );
  const row = (title: string) => plan.rows.find(({ line }) => line.title === title)!;

  test('a joint names who pays and who is spared, and the spared row shows what is left', () => {
    expect(plan.joints.map(({ payer, spared, hours }) => [payer.title, spared.title, hours]).sort()).toEqual([
      ['A', 'B', '0.75'],
      ['A', 'D', '1.4'],
    ]);
    expect(row('B')).toMatchObject({ own: '0.5', deducted: '0.75' });
    expect(row('D')).toMatchObject({ own: '1.4', deducted: '1.4' });
    expect(row('A')).toMatchObject({ own: '3.5', deducted: '0' });
  });

  test('joined rows are neighbours, and joints that meet stand in columns of their own', () => {
    for (const joint of plan.joints) expect(joint.lanes).toBe(2);
    expect(new Set(plan.joints.map(({ x }) => x)).size).toBe(2);
    expect(plan.axis).toBeGreaterThan(Math.max(...plan.joints.map(({ x }) => x)));
  });

  test('an included line hangs below the line that it is part of and has no row', () => {
    expect(plan.rows.map(({ line }) => line.title)).not.toContain('C');
    const { top, lanes, included } = row('Whole');
    expect(included).toHaveLength(1);
    expect(included[0]!.line.title).toBe('C');
    expect(included[0]!.top).toBe(top + 1);
    expect(included[0]!.top + included[0]!.lanes).toBe(top + lanes);
  });

  test('their names', () => {
    const names = teardownStops(plan, 'en').map(({ name }) => name.replaceAll('\u00a0', ' '));
    expect(names).toContain('C, included in Whole, no hours charged');
    expect(names).toContain('Declared overlap, 1.4 h, paid by A, not again by D');
    expect(names).toContain('D, own work 1.4 h, 1.4 h less for a declared overlap, charged 1.4 h of 2.8 h');
  });
});

test('without a priced operation there is nothing to draw', () => {
  const plan = planOf(demo, []);
  expect(plan).toMatchObject({ rows: [], steps: [], joints: [], lanes: 0, axis: 0 });
  expect(teardownStops(plan, 'en')).toEqual([]);
});

test('lines that share nothing keep the order of the sheet', () => {
  const operations = ['x', 'y', 'z'].map((id) => ({ id, title: id, bookHours: '1' }));
  const plan = planOf(catalogueOf({ operations }), ['z', 'x', 'y']);
  expect(plan.rows.map(({ line }) => line.title)).toEqual(['z', 'x', 'y']);
});

test('marks go on after Z', () => {
  const ids = Array.from({ length: 28 }, (_, i) => `s${i}`);
  const plan = planOf(
    catalogueOf({
      steps: ids.map((id) => ({ id, title: id, hours: '0.1' })),
      operations: [{ id: 'all', title: 'All', bookHours: '3', steps: ids }],
    }),
    ['all'],
  );
  expect(plan.steps.map(({ mark }) => mark).slice(24)).toEqual(['Y', 'Z', 'AA', 'AB']);
});

describe('any choice of operations from the demo catalogue', () => {
  const choice = fc
    .shuffledSubarray(
      demo.operations.map(({ id }) => id),
      { minLength: 1, maxLength: 70 },
    )
    .map((operations) => price(demo, operations));
  const always = (holds: (plan: TeardownPlan, priced: PricedEstimate) => void) =>
    fc.assert(
      fc.property(choice, (priced) => holds(planTeardown(priced), priced)),
      { numRuns: 60 },
    );

  test('each priced operation has one row or is part of one', () => {
    always((plan, priced) => {
      const drawn = plan.rows.flatMap((row) => [row.line.id, ...row.included.map(({ line }) => line.id)]);
      expect(drawn.sort()).toEqual(priced.lines.map(({ id }) => id).sort());
    });
  });

  test('each step is one block over exactly the rows that need it', () => {
    always((plan, priced) => {
      expect(plan.steps.map(({ step }) => step)).toHaveLength(priced.overlap.steps.length);
      for (const { step, runs } of plan.steps) {
        const covered = plan.rows.filter((row) => runs.some((run) => row.top >= run.top && row.top + row.lanes <= run.top + run.lanes));
        expect(covered.map(({ line }) => line.id).sort()).toEqual([...step.lines].sort());
      }
    });
  });

  test('no block lies on another or passes through one', () => {
    always(({ steps }) => {
      const boxes = steps.map(({ x, width, runs }) => ({
        from: x,
        to: x + width,
        top: runs[0]!.top,
        bottom: runs.at(-1)!.top + runs.at(-1)!.lanes,
      }));
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) {
          const meet = a.from < b.to - 1e-9 && b.from < a.to - 1e-9 && a.top < b.bottom && b.top < a.bottom;
          expect(meet).toBe(false);
        }
      });
    });
  });

  // Where exactly the same lines need both, a priced estimate does not tell which of the two comes first.
  test('what a step needs and more lines need comes off before it, further left', () => {
    always(({ steps }) => {
      for (const block of steps) {
        const needs = demo.steps.find(({ id }) => id === block.step.step)!.needs;
        for (const below of steps.filter(({ step }) => needs.includes(step.step))) {
          if (below.step.position !== null && below.step.position !== block.step.position) continue;
          if (below.step.lines.length === block.step.lines.length) continue;
          expect(below.x + below.width).toBeLessThanOrEqual(block.x + 1e-9);
        }
      }
    });
  });

  test('own work and carried steps are what is charged, to the last digit', () => {
    always(({ rows, steps }) => {
      for (const { line, own } of rows) {
        const carried = steps.filter(({ step }) => step.carriedBy === line.id).map(({ step }) => decimal(step.hours));
        expect(sum([decimal(own), ...carried]).toFixed()).toBe(line.chargedHours);
      }
    });
  });

  test('every row, step, included line and joint can be reached once', () => {
    always((plan) => {
      const stops = teardownStops(plan, 'en');
      const included = plan.rows.flatMap((row) => row.included).length;
      expect(stops).toHaveLength(plan.rows.length + plan.steps.length + plan.joints.length + included);
      expect(new Set(stops.map(({ key }) => key)).size).toBe(stops.length);
    });
  });

  test('everything fits between the edges', () => {
    always(({ steps, joints, rows, axis, width, lanes }) => {
      for (const step of steps) expect(step.x + step.width).toBeLessThan(axis);
      for (const joint of joints) expect(joint.top + joint.lanes).toBeLessThanOrEqual(lanes);
      for (const row of rows) expect(axis + row.ownWidth + row.deductedWidth).toBeLessThan(width);
    });
  });
});

describe('the turned title of a block', () => {
  const block = (title: string, width: number, lanes: number, carriedAt: number) =>
    ({ title, width, runs: [{ top: 0, lanes }], carried: { top: carriedAt, lanes: 1 } }) as never;

  test('stands in the roomier part beside the mark', () => {
    expect(titlePlace(block('Undertray off and on', 0.3, 7, 5), 3, 6)).toEqual({
      lines: ['Undertray off and on'],
      middle: 2.5,
    });
    expect(titlePlace(block('Undertray off and on', 0.3, 7, 1), 3, 6)).toMatchObject({ middle: 4.5 });
  });

  test('breaks between words where the block is wide enough', () => {
    expect(titlePlace(block('Drain, refill and bleed the coolant', 0.6, 4, 3), 3, 6)!.lines).toEqual([
      'Drain, refill',
      'and bleed the',
      'coolant',
    ]);
  });

  test('is left out where it has no room', () => {
    expect(titlePlace(block('Drain, refill and bleed the coolant', 0.1, 4, 3), 3, 6)).toBeNull();
    expect(titlePlace(block('Undertray', 0.5, 1, 0), 3, 6)).toBeNull();
    expect(titlePlace(block('Unbreakablylongtechnicalword', 2, 3, 0), 3, 6)).toBeNull();
  });
});

function planOf(catalogue: typeof demo, operations: readonly string[]): TeardownPlan {
  return planTeardown(price(catalogue, operations));
}

function price(catalogue: typeof demo, operations: readonly string[]): PricedEstimate {
  const lines = operations.map((operation, i) => ({ id: `l${i}`, kind: 'operation', operation }));
  const estimate = must(parseEstimate({ format: 'baysheet-estimate', version: 1, id: 'e', lines }));
  return priceEstimate({ estimate, catalogue, rates });
}

function catalogueOf({ steps = [], operations = [], overlaps = [] }: Record<string, unknown[]>): typeof demo {
  return must(
    parseCatalogue({
      format: 'baysheet-catalogue',
      version: 1,
      id: 'c',
      title: 'Test',
      steps,
      operations: operations.map((operation) => ({ labourClass: 'general', ...(operation as object) })),
      overlaps,
    }),
  );
}

function must<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}
