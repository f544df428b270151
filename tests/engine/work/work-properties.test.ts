/** What must hold of the work sheet and the parts run for any catalogue and any approved lines. */
import { expect, it } from 'vitest';
import { planPartsRun, type SheetEntry, type SheetPart, type WorkSheet, workSheet } from '../../../src/index.js';
import { type Drawing, forAll, randomDocuments } from '../../support/arbitraries.js';
import { priceDocuments, readDocuments } from '../../support/builders.js';
import type { CatalogueDoc, Documents, OperationLine } from '../../support/oracle-documents.js';
import { Fraction, sum } from '../../support/oracle-fraction.js';
import { neededSteps } from '../../support/oracle-hours.js';

const RUNS = 150;

/** Random documents in which most lines are approved and some operations are closing tests. */
function approvedDocuments(d: Drawing): Documents {
  const documents = randomDocuments(d);
  const lines = documents.estimate.lines.map((line) => (d.chance(75) ? { ...line, decision: 'approved' as const } : line));
  const methods = d.some(documents.catalogue.operations, 15).map(({ id }) => ({ id: `m-${id}`, title: 'Test', closing: id }));
  return { ...documents, estimate: { ...documents.estimate, lines }, catalogue: { ...documents.catalogue, methods } as CatalogueDoc };
}

function withSheet(check: (sheet: WorkSheet, documents: Documents) => void): void {
  forAll(RUNS, (d) => {
    const documents = approvedDocuments(d);
    check(workSheet(readDocuments(documents)), documents);
  });
}

const stepAt = (entry: { step: string; position: string | null }): string => `${entry.step}@${entry.position ?? ''}`;
const approvedWork = ({ estimate, catalogue }: Documents): OperationLine[] =>
  estimate.lines.filter(
    (line): line is OperationLine =>
      line.kind === 'operation' && line.decision === 'approved' && catalogue.operations.some(({ id }) => id === line.operation),
  );

/** The steps that work of a line needs at some positions, found by the oracle's own walk. */
function needed(catalogue: CatalogueDoc, line: string, positions: readonly string[], documents: Documents): string[] {
  const found = approvedWork(documents).find(({ id }) => id === line)!;
  const operation = catalogue.operations.find(({ id }) => id === found.operation)!;
  return neededSteps(catalogue, operation).flatMap((id) => {
    const { per } = catalogue.steps.find((step) => step.id === id)!;
    return per === 'vehicle' ? [`${id}@`] : (positions.length === 0 ? [''] : positions).map((position) => `${id}@${position}`);
  });
}

/** Goes through the entries with the steps that are open at each. */
function walk(entries: readonly SheetEntry[], visit: (entry: SheetEntry, open: readonly string[]) => void): void {
  const open: string[] = [];
  for (const entry of entries) {
    visit(entry, open);
    if (entry.kind === 'open') open.push(stepAt(entry));
    if (entry.kind === 'close') open.pop();
  }
  expect(open).toEqual([]);
}

it('each step is opened exactly once and closed exactly once', () => {
  withSheet(({ entries }) => {
    for (const kind of ['open', 'close'] as const) {
      const steps = entries.filter((entry) => entry.kind === kind).map((entry) => stepAt(entry as never));
      expect(new Set(steps).size).toBe(steps.length);
    }
  });
});

it('no step is opened before what it needs is open, nor without anything that needs it', () => {
  withSheet(({ entries }, documents) => {
    const { catalogue } = documents;
    const asked = new Set(
      entries.flatMap((entry) => (entry.kind === 'work' ? needed(catalogue, entry.line, entry.positions, documents) : [])),
    );
    walk(entries, (entry, open) => {
      if (entry.kind !== 'open') return;
      const step = catalogue.steps.find(({ id }) => id === entry.step)!;
      for (const need of step.needs) {
        const { per } = catalogue.steps.find(({ id }) => id === need)!;
        expect(open).toContain(`${need}@${per === 'vehicle' ? '' : (entry.position ?? '')}`);
      }
      expect([...asked]).toContain(stepAt(entry));
    });
  });
});

it('what is closed is always what was opened last: the way back is the way in reversed', () => {
  withSheet(({ entries }) => {
    walk(entries, (entry, open) => {
      expect(entry.depth).toBe(entry.kind === 'close' ? open.length - 1 : open.length);
      if (entry.kind === 'close') expect(stepAt(entry)).toBe(open.at(-1));
    });
  });
});

it('every step that an operation needs is open when it is done', () => {
  withSheet(({ entries }, documents) => {
    walk(entries, (entry, open) => {
      if (entry.kind !== 'work') return;
      for (const step of needed(documents.catalogue, entry.line, entry.positions, documents)) expect(open).toContain(step);
    });
  });
});

it('every approved operation is there exactly once, at each of its positions', () => {
  withSheet(({ entries, loose }, documents) => {
    const told = entries.flatMap((entry) =>
      entry.kind === 'work'
        ? [entry, ...entry.includes].flatMap(({ line, positions }) =>
            (positions.length === 0 ? [''] : positions).map((position) => `${line} ${position}`),
          )
        : [],
    );
    const asked = approvedWork(documents)
      .filter(({ id }) => !loose.some((work) => work.line === id))
      .flatMap(({ id, positions }) => (positions.length === 0 ? [''] : positions).map((position) => `${id} ${position}`));
    expect([...told].sort()).toEqual([...asked].sort());
    const others = documents.estimate.lines.filter(
      ({ kind, decision }) => decision === 'approved' && kind !== 'operation' && kind !== 'fee' && kind !== 'note',
    );
    expect(loose.map(({ line }) => line)).toEqual(expect.arrayContaining(others.map(({ id }) => id)));
  });
});

it('a closing test is done with nothing inside it still to do', () => {
  withSheet(({ entries }) => {
    entries.forEach((entry, i) => {
      const next = entries[i + 1];
      // After it comes another one, or the way back.
      if (entry.kind === 'work' && entry.closingTest && next?.kind === 'work') expect(next.closingTest).toBe(true);
      if (entry.kind === 'work' && entry.closingTest) expect(next?.kind).not.toBe('open');
    });
  });
});

it('sheet, parts run and price name the same parts in the same quantities', () => {
  withSheet((sheet, documents) => {
    const only = new Set(documents.estimate.lines.filter(({ decision }) => decision === 'approved').map(({ id }) => id));
    const charges = priceDocuments(documents, { only }).charges.filter(({ kind }) => kind === 'part');
    const add = (list: readonly { part: string; qty: string }[]): Record<string, string> => {
      const parts = [...new Set(list.map(({ part }) => part))].sort();
      return Object.fromEntries(
        parts.map((part) => [part, sum(list.filter((other) => other.part === part).map(({ qty }) => Fraction.of(qty))).toString()]),
      );
    };
    const fitted = sheet.entries.flatMap((entry): readonly SheetPart[] =>
      entry.kind === 'work' ? [...entry.parts, ...entry.includes.flatMap(({ parts }) => parts)] : entry.kind === 'close' ? entry.renew : [],
    );
    const ofCatalogue = charges.filter(({ part }) => part!.id !== null).map(({ part, qty }) => ({ part: part!.id!, qty }));
    expect(add(fitted.map(({ part, qty }) => ({ part: part!, qty })))).toEqual(add(ofCatalogue));

    const plan = planPartsRun(readDocuments(documents)).suppliers.flatMap(({ parts }) => parts);
    const keyed = charges.map(({ part, title, qty }) => ({ part: `${part!.number || (part!.id ?? title)} ${part!.condition}`, qty }));
    const sums = Object.entries(add(keyed)).filter(([, qty]) => Fraction.of(qty).compare(Fraction.of('0')) > 0);
    const listed = add(
      plan
        .filter(({ qty }) => qty !== '0')
        .map(({ number, part, title, condition, qty }) => ({ part: `${number || (part ?? title)} ${condition}`, qty })),
    );
    expect(listed).toEqual(Object.fromEntries(sums));
  });
});
