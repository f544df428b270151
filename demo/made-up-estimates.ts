import { type Catalogue, parseEstimate } from '../src/index.js';
import type { Estimate } from '../src/index.js';

/** Lines of one made-up estimate. */
const LINES = 20;
const SURNAMES = ['Abend', 'Birkwood', 'Corvane', 'Delmere', 'Estrow', 'Fenlock', 'Garrish', 'Holm'];
const DECISIONS = ['approved', 'approved', 'approved', 'proposed', 'declined', 'deferred'] as const;

/**
 * Estimates that nobody ever wrote, for trying what a change of rates does: the same for the same seed and place, each
 * of twenty lines from the catalogue. Everything in them is invented: vehicles, names, jobs, decisions.
 */
export class MadeUpEstimates {
  readonly title: string;
  private readonly systems: ReadonlyMap<string, readonly string[]>;

  constructor(
    private readonly catalogue: Catalogue,
    readonly count: number,
    private readonly seed = 1,
  ) {
    this.title = `${count.toLocaleString('en')} made-up estimates`;
    const systems = new Map<string, string[]>();
    for (const { id, system } of catalogue.operations) {
      if (systems.has(system)) systems.get(system)!.push(id);
      else systems.set(system, [id]);
    }
    this.systems = systems;
  }

  /** The estimate at a place (0 to `count` − 1), as JSON would hold it. */
  read(i: number): unknown {
    const draw = drawing(this.seed * 1_000_003 + i);
    const operations = this.operations(draw);
    const lines = Array.from({ length: LINES }, (_, n) => {
      const common = { id: `l${n + 1}`, decision: DECISIONS[draw(DECISIONS.length)]! };
      const operation = operations[n];
      if (operation !== undefined) return { ...common, kind: 'operation', operation, ...this.detail(operation, draw) };
      switch (draw(5)) {
        case 0:
        case 1:
          return {
            ...common,
            kind: 'labour',
            title: 'Made-up work by the hour',
            hours: tenths(2 + draw(20)),
            labourClass: this.labourClass(draw),
          };
        case 2:
        case 3:
          return { ...common, kind: 'part', title: 'Made-up part', qty: String(1 + draw(4)), cost: cents(150 + draw(24_000)) };
        default:
          return { ...common, kind: 'sublet', title: 'Made-up work next door', cost: cents(2000 + draw(20_000)) };
      }
    });
    const discounts = draw(8) > 0 ? [] : [{ id: 'd1', title: 'Made-up discount', percent: String(5 * (1 + draw(3))), on: ['labour'] }];
    const day = new Date(Date.UTC(2025, draw(12), 1 + draw(28), 8 + draw(9), draw(60)));
    return {
      format: 'baysheet-estimate',
      version: 1,
      id: `made-up-${this.seed}-${i}`,
      number: `M${String(i + 1).padStart(5, '0')}`,
      createdAt: day.toISOString(),
      vehicle: { label: `Made-up van ${1 + draw(900)}` },
      customer: { name: `${SURNAMES[draw(SURNAMES.length)]} (invented)` },
      lines,
      discounts,
    };
  }

  /** All of them, one after the other. */
  *[Symbol.iterator](): Generator<Estimate> {
    for (let i = 0; i < this.count; i += 1) {
      const read = parseEstimate(this.read(i));
      if (!read.ok) throw new Error(`The catalogue has ids that an estimate cannot hold: ${JSON.stringify(read.problems)}`);
      yield read.value;
    }
  }

  /** Most of the lines, from few systems of the vehicle, so that they share teardown as the lines of a real job do. */
  private operations(draw: (limit: number) => number): string[] {
    const names = [...this.systems.keys()];
    const wanted = 12 + draw(6);
    const chosen = new Set<string>();
    for (let tries = 0; chosen.size < wanted && tries < 200; tries += 1) {
      const ids = this.systems.get(names[draw(names.length)]!)!;
      for (let n = 0; n < 4 && chosen.size < wanted; n += 1) chosen.add(ids[draw(ids.length)]!);
    }
    return [...chosen];
  }

  private detail(id: string, draw: (limit: number) => number): object {
    const operation = this.catalogue.operations.find((known) => known.id === id)!;
    const positions = operation.per === 'position' ? ['left front', 'right front'].slice(0, 1 + draw(2)) : [];
    const own = operation.parts[0];
    return {
      positions,
      ...(draw(12) === 0 ? { extraHours: { hours: tenths(1 + draw(8)), reason: 'Seized fasteners (invented)' } } : {}),
      ...(own !== undefined && draw(10) === 0 ? { parts: [{ part: own.part, cost: cents(300 + draw(9000)) }] } : {}),
    };
  }

  private labourClass(draw: (limit: number) => number): string {
    const classes = [...new Set(this.catalogue.operations.map((operation) => operation.labourClass))];
    return classes[draw(classes.length)]!;
  }
}

/** Whole numbers below `limit`, the same row for the same seed (Marsaglia's xorshift, 2003). */
function drawing(seed: number): (limit: number) => number {
  let state = Math.imul(seed + 1, 2_654_435_761) >>> 0 || 1;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state >>> 0;
  };
  for (let i = 0; i < 4; i += 1) next();
  return (limit) => next() % limit;
}

function cents(whole: number): string {
  return `${Math.floor(whole / 100)}.${String(whole % 100).padStart(2, '0')}`;
}

function tenths(whole: number): string {
  return `${Math.floor(whole / 10)}.${whole % 10}`;
}
