/** The lines that fit under a ceiling, against every set there is. */
import { describe, expect, it } from 'vitest';
import { prepare } from '../../../src/pricing/documents.js';
import { Pricer } from '../../../src/pricing/pricer.js';
import { type BudgetFit, fitToBudget } from '../../../src/share/budget.js';
import { leastModel, units } from '../../../src/share/budget-model.js';
import { type Drawing, forAll, randomDocuments } from '../../support/arbitraries.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aRateCard,
  aStep,
  aTax,
  feeLine,
  labourLine,
  operationLine,
  readDocuments,
} from '../../support/builders.js';
import type { Documents, LineDoc } from '../../support/oracle-documents.js';
import { demoDocuments } from './documents.js';

const seed = Number(process.env['BAYSHEET_SEED'] ?? 1);
const URGENCIES = ['unsafe', 'now', 'soon', 'watch'] as const;

/** Random documents of up to ten lines whose findings are of every urgency. */
function urgentDocuments(d: Drawing): Documents {
  const documents = randomDocuments(d);
  const findings = URGENCIES.map((urgency, i) => ({
    id: `f${i}`,
    round: 1,
    component: '',
    position: '',
    fault: '',
    seen: [],
    urgency,
    text: '',
  }));
  const lines = documents.estimate.lines
    .slice(0, 10)
    .map((line): LineDoc => (line.kind === 'operation' ? { ...line, findings: d.some(findings, 30).map(({ id }) => id) } : line));
  return { ...documents, estimate: { ...documents.estimate, findings, lines } };
}

function totals(documents: ReturnType<typeof readDocuments>) {
  const read = prepare(documents);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { estimate, index, rates } = read.prepared;
  const pricer = new Pricer(index, rates);
  return { estimate, index, rates, total: (ids: readonly string[]) => pricer.total(estimate, new Set(ids)) };
}

/** Counts by urgency as one text that sorts, for every set of lines, by looking at each. */
function bruteForce(documents: ReturnType<typeof readDocuments>, ids: readonly string[], keep: readonly string[], ceiling: string) {
  const { estimate, total } = totals(documents);
  let best: { counts: number[]; total: ReturnType<typeof total> } | null = null;
  for (let bits = 0; bits < 2 ** ids.length; bits += 1) {
    const chosen = ids.filter((_, k) => (bits >> k) & 1);
    if (!keep.every((id) => chosen.includes(id))) continue;
    const comes = total(chosen);
    if (comes.gt(ceiling)) continue;
    const counts = countsOf(estimate, chosen);
    const order =
      best === null ? 1 : (counts.map((count, i) => count - best!.counts[i]!).find((each) => each !== 0) ?? best.total.cmp(comes));
    if (order > 0) best = { counts, total: comes };
  }
  return best;
}

function countsOf(estimate: Documents['estimate'] | ReturnType<typeof readDocuments>['estimate'], chosen: readonly string[]): number[] {
  const counts = [0, 0, 0, 0];
  for (const id of chosen) {
    const line = estimate.lines.find((each) => each.id === id)!;
    const of = line.kind === 'operation' ? estimate.findings.filter((finding) => line.findings.includes(finding.id)) : [];
    const first = URGENCIES.findIndex((urgency) => of.some((finding) => finding.urgency === urgency));
    counts[first < 0 ? 2 : first]! += 1;
  }
  return counts;
}

describe(`fitToBudget (seed ${seed})`, () => {
  it('finds what looking at every set finds', () => {
    const reached = { some: 0, none: 0, all: 0 };
    forAll(
      120,
      (d) => {
        const drawn = urgentDocuments(d);
        const documents = readDocuments(drawn);
        const everything = fitToBudget(documents, '999999999999');
        const ids = [...everything.chosen, ...everything.left].filter((id) => {
          const decision = documents.estimate.lines.find((line) => line.id === id)!.decision;
          return decision === 'approved' || decision === 'proposed';
        });
        const keep = ids.filter((id) => documents.estimate.lines.find((line) => line.id === id)!.decision === 'approved');
        const { total } = totals(documents);
        const ceiling = total(d.some(ids, 60))
          .plus(d.pick(['0', '0', '-0.01', '12.34']))
          .toFixed(2);
        const found: BudgetFit = fitToBudget(documents, ceiling);
        const best = bruteForce(documents, ids, keep, ceiling);
        const told = JSON.stringify({ ceiling, found, best, drawn });
        expect(found.fits, told).toBe(best !== null);
        expect(found.proven, told).toBe(true);
        if (best === null) return;
        expect({ counts: countsOf(documents.estimate, found.chosen), total: Number(found.total) }, told).toEqual({
          counts: best.counts,
          total: best.total.toNumber(),
        });
        expect(total(found.chosen).eq(found.total)).toBe(true);
        reached[found.chosen.length === 0 ? 'none' : found.left.length === 0 ? 'all' : 'some'] += 1;
      },
      { seed },
    );
    expect(reached.some).toBeGreaterThan(40);
    expect(reached.all).toBeGreaterThan(1);
  });

  it('never bounds a set above what the engine makes of it', () => {
    forAll(
      120,
      (d) => {
        const drawn = urgentDocuments(d);
        const documents = readDocuments(drawn);
        const { estimate, index, rates, total } = totals(documents);
        const priceable = fitToBudget(documents, '0');
        const ids = [...priceable.chosen, ...priceable.left];
        const model = leastModel(estimate, ids, index, rates);
        for (let i = 0; i < 20; i += 1) {
          const chosen = ids.map(() => d.chance(60));
          const included = model.choices.map(({ outer }) => outer.some((j) => chosen[j]));
          const needed = new Set(model.choices.flatMap((choice, k) => (!chosen[k] ? [] : included[k] ? choice.always : choice.needs)));
          const sum = (key: 'total' | 'base'): bigint =>
            model.choices.reduce((all, choice, k) => all + (chosen[k] ? (included[k] ? choice.included : choice.alone)[key] : 0n), 0n) +
            [...needed].reduce((all, k) => all + model.shared[k]![key], 0n);
          const least = sum('total') + model.supplies(sum('base')) + model.offset;
          const comes = total(ids.filter((_, k) => chosen[k]));
          if (least > units(comes)) throw new Error(`bound ${least} above ${comes}: ${JSON.stringify({ chosen, drawn })}`);
        }
      },
      { seed },
    );
  });

  it('counts a shared step once: two jobs fit where their prices alone do not', () => {
    const documents = readDocuments({
      estimate: anEstimate([operationLine('l1', 'a'), operationLine('l2', 'b'), operationLine('l3', 'c')]),
      catalogue: aCatalogue({
        steps: [aStep('strip', '3')],
        operations: [anOperation('a', '4', { steps: ['strip'] }), anOperation('b', '4', { steps: ['strip'] }), anOperation('c', '3.5')],
      }),
      rates: aRateCard(),
    });
    expect(fitToBudget(documents, '500')).toMatchObject({ chosen: ['l1', 'l2'], total: '500.00', left: ['l3'], fits: true, proven: true });
    expect(fitToBudget(documents, '499.99')).toMatchObject({ chosen: ['l3'], total: '350.00' });
  });

  it('takes what is unsafe before any number of other lines, and names what is unsafe and left out', () => {
    const finding = (id: string, urgency: 'unsafe' | 'now') => ({
      id,
      round: 1,
      component: '',
      position: '',
      fault: '',
      seen: [],
      urgency,
      text: '',
    });
    const documents = readDocuments({
      estimate: anEstimate(
        [
          operationLine('l1', 'small', { findings: ['f2'] }),
          operationLine('l2', 'small', { findings: ['f2'], positions: ['left'] }),
          operationLine('l3', 'large', { findings: ['f1'] }),
          operationLine('l4', 'larger', { findings: ['f1', 'f2'] }),
        ],
        { findings: [finding('f1', 'unsafe'), finding('f2', 'now')] },
      ),
      catalogue: aCatalogue({ operations: [anOperation('small', '1'), anOperation('large', '2'), anOperation('larger', '3')] }),
      rates: aRateCard(),
    });
    expect(fitToBudget(documents, '250')).toMatchObject({ chosen: ['l3'], unsafeLeft: ['l4'] });
    expect(fitToBudget(documents, '300')).toMatchObject({ chosen: ['l1', 'l3'], unsafeLeft: ['l4'] });
    expect(fitToBudget(documents, '199')).toMatchObject({ chosen: ['l1'], unsafeLeft: ['l3', 'l4'] });
  });

  it('keeps what is approved, and leaves alone what was declined or deferred', () => {
    const lines = [
      labourLine('l1', '2', { decision: 'approved' }),
      labourLine('l2', '1', { decision: 'declined' }),
      labourLine('l3', '1', { decision: 'deferred' }),
      labourLine('l4', '1.5'),
    ];
    const documents = readDocuments({ estimate: anEstimate(lines), catalogue: aCatalogue(), rates: aRateCard() });
    expect(fitToBudget(documents, '1000')).toMatchObject({ chosen: ['l1', 'l4'], left: ['l2', 'l3'] });
    expect(fitToBudget(documents, '150')).toMatchObject({ chosen: ['l1'], total: '200.00', fits: false });
    expect(fitToBudget(documents, '310', { among: ['l2', 'l3', 'l4'] })).toMatchObject({ chosen: ['l1', 'l2'] });
    expect(fitToBudget(documents, '150', { keep: [] })).toMatchObject({ chosen: ['l4'], fits: true });
  });

  it('lets a credit pay for another line', () => {
    const lines = [labourLine('l1', '2'), feeLine('l2', '-50')];
    const documents = readDocuments({ estimate: anEstimate(lines), catalogue: aCatalogue(), rates: aRateCard() });
    expect(fitToBudget(documents, '150')).toMatchObject({ chosen: ['l1', 'l2'], total: '150.00' });
  });

  it('is not led astray by many lines that say the same', () => {
    const lines = Array.from({ length: 30 }, (_, i) => labourLine(`l${i + 1}`, '1.07'));
    const documents = readDocuments({
      estimate: anEstimate(lines),
      catalogue: aCatalogue(),
      rates: aRateCard({ taxes: [aTax('t', '7.77')] }),
    });
    expect(fitToBudget(documents, '1800')).toMatchObject({
      total: '1729.71',
      proven: true,
      chosen: lines.slice(0, 15).map(({ id }) => id),
    });
  });

  it('says so when it has to stop before the end', () => {
    const { chosen, proven, fits } = fitToBudget(demoDocuments(), '1500', { patience: 3 });
    expect({ chosen, proven, fits }).toMatchObject({ proven: false });
  });

  it('refuses a ceiling that is no amount', () => {
    expect(() => fitToBudget(demoDocuments(), '12,50')).toThrow(/no amount: 12,50/);
    expect(() => fitToBudget(demoDocuments(), 500 as never)).toThrow(/no amount/);
    expect(() => fitToBudget({} as never, '1')).toThrow(/cannot be read/);
  });
});
