/** Estimates of any number of lines for measuring links: operations of the demo catalogue, found in the words of the demo van. */
import { demoDocuments } from './documents.js';
import { shop } from './sealed.js';

/** How much is said of each finding: what is wrong alone; the evidence too; a sentence or two for the customer besides. */
export const WORDS = ['fault', 'evidence', 'sentences'] as const;

/** @param from which operation of the catalogue is the first */
export function manyLines(count: number, words: (typeof WORDS)[number], from = 0) {
  const documents = demoDocuments();
  const { estimate, catalogue } = documents;
  const remedies = new Map(catalogue.remedies.flatMap((remedy) => remedy.operations.map((id) => [id, remedy] as const)));
  const operations = catalogue.operations.slice(from, from + count);
  const findings = operations.map((operation, i) => {
    const pattern = estimate.findings[i % estimate.findings.length]!;
    const remedy = remedies.get(operation.id);
    return {
      ...pattern,
      id: `f${i + 1}`,
      component: remedy?.component ?? '',
      position: operation.per === 'position' ? 'left front' : '',
      fault: remedy?.fault ?? 'worn',
      seen: words === 'fault' ? [] : pattern.seen,
      text: words === 'sentences' ? `${pattern.text.replace(/\w+\.$/, '')}${operation.title}.` : '',
    };
  });
  const lines = operations.map((operation, i) => ({
    ...estimate.lines[1]!,
    id: `l${i + 1}`,
    kind: 'operation' as const,
    operation: operation.id,
    positions: operation.per === 'position' ? ['left front'] : [],
    findings: [`f${i + 1}`],
    labourClass: null,
    bookHours: null,
    extraHours: null,
    parts: [],
  }));
  return { ...documents, estimate: { ...estimate, rounds: [], concern: 'Loses coolant.', findings, lines }, shop };
}
