import type { CatalogueDoc, EstimateDoc, LineDoc, OperationDoc, PartDoc, RatesDoc, StepDoc } from '../support/oracle-documents.js';
import { aCatalogue, anEstimate, anOperation, aPart, aRateCard, aStep, aTax, labourLine, partLine } from '../support/builders.js';

/** Lines that belong to one system of the vehicle, and so share its access steps. */
const LINES_PER_SYSTEM = 8;

export interface BenchDocuments {
  readonly estimate: EstimateDoc;
  readonly catalogue: CatalogueDoc;
  readonly rates: RatesDoc;
}

/**
 * Made-up documents of any size, the same for the same size: per system of the vehicle five access steps that need
 * one another, six operations that share them, a labour line and a part line. The catalogue grows with the lines.
 *
 * @param declared whether neighbouring operations are declared to overlap as well: a chain through each system
 */
export function benchDocuments(lines: number, declared = false): BenchDocuments {
  const draw = drawing(lines);
  const steps: StepDoc[] = [aStep('lift', '0.2')];
  const parts: PartDoc[] = [];
  const operations: OperationDoc[] = [];
  const sheet: LineDoc[] = [];

  const addPart = (id: string): string => {
    parts.push(aPart(id, cents(200 + draw(30_000)), { core: draw(12) === 0 ? cents(500 + draw(4000)) : '0' }));
    return id;
  };
  const addSteps = (system: string): string[] =>
    Array.from({ length: 5 }, (_, k) => {
      const needs = k === 0 ? (draw(2) === 0 ? ['lift'] : []) : k < 3 ? [`${system}.step0`] : [];
      const fluid = k % 2 === 1 ? [{ part: addPart(`${system}.step${k}.part`), qty: tenths(10 + draw(60)) }] : [];
      const step = aStep(`${system}.step${k}`, tenths(1 + draw(6)), { needs, parts: fluid });
      steps.push(step);
      return step.id;
    });

  for (let s = 0; sheet.length < lines; s += 1) {
    const system = `s${s}`;
    const ownSteps = addSteps(system);
    for (let k = 0; k < LINES_PER_SYSTEM && sheet.length < lines; k += 1) {
      const id = `${system}.l${k}`;
      if (k === 6) sheet.push(labourLine(id, tenths(1 + draw(20))));
      else if (k === 7) sheet.push(partLine(id, String(1 + draw(4)), cents(200 + draw(9000))));
      else {
        const needs = ownSteps.filter((_, i) => i === k % 5 || draw(3) === 0);
        const own = Array.from({ length: 1 + draw(3) }, (_, p) => ({
          part: addPart(`${system}.op${k}.part${p}`),
          qty: String(1 + draw(4)),
        }));
        operations.push(
          anOperation(`${system}.op${k}`, tenths(35 + draw(40)), {
            steps: needs,
            parts: own,
            labourClass: draw(5) === 0 ? 'electrical' : 'general',
            fees: draw(4) === 0 ? ['disposal'] : [],
          }),
        );
        sheet.push({ id, kind: 'operation', operation: `${system}.op${k}`, positions: [], findings: [], decision: 'proposed' });
      }
    }
  }
  return {
    estimate: anEstimate(sheet),
    catalogue: aCatalogue({ steps, parts, operations, overlaps: declared ? chains(operations) : [] }),
    rates: rateCard(),
  };
}

/** Each operation and the next one of its system: some hours beyond the steps, so that they are deducted. */
function chains(operations: readonly OperationDoc[]): CatalogueDoc['overlaps'] {
  const systemOf = (operation: OperationDoc): string => operation.id.split('.')[0]!;
  return operations.flatMap((operation, i) => {
    const next = operations[i + 1];
    if (next === undefined || systemOf(next) !== systemOf(operation)) return [];
    return [{ between: [operation.id, next.id] as [string, string], hours: tenths(15 + (i % 7)) }];
  });
}

function rateCard(): RatesDoc {
  return aRateCard({
    labourClasses: [
      { id: 'general', title: 'General repair', rate: '148.50' },
      { id: 'electrical', title: 'Electrical work', rate: '162.00' },
    ],
    parts: {
      basis: 'markup',
      mode: 'progressive',
      tiers: [{ upTo: '10.00', percent: '100' }, { upTo: '50.00', percent: '70' }, { upTo: '200.00', percent: '45' }, { percent: '30' }],
    },
    supplies: { title: 'Shop supplies', percent: '6', of: ['labour'], minimum: null, maximum: null },
    fees: [{ id: 'disposal', title: 'Disposal', amount: '6.50', per: 'estimate', taxes: [] }],
    taxes: [aTax('state', '4.25', { on: ['part', 'core', 'supplies'] }), aTax('local', '1.5', { on: ['part', 'core', 'supplies'] })],
  });
}

/** The first operation line at or after the middle of the sheet: the one that is edited. */
export function editedLine(estimate: { readonly lines: readonly { readonly kind: string }[] }): number {
  const middle = Math.floor(estimate.lines.length / 2);
  return estimate.lines.findIndex((line, i) => i >= middle && line.kind === 'operation');
}

/** Whole numbers below `limit`, the same row for the same seed (Marsaglia's xorshift, 2003). */
function drawing(seed: number): (limit: number) => number {
  let state = (seed * 2_654_435_761) >>> 0 || 1;
  return (limit) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % limit;
  };
}

function cents(whole: number): string {
  return `${Math.floor(whole / 100)}.${String(whole % 100).padStart(2, '0')}`;
}

function tenths(whole: number): string {
  return `${Math.floor(whole / 10)}.${whole % 10}`;
}
