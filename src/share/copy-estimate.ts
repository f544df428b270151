import type { Estimate, Evidence, Finding } from '../documents/estimate.js';
import { isBlank } from '../documents/fields.js';
import type { Line, OperationLine, PartOverride } from '../documents/lines.js';
import { decimal } from '../number/decimal.js';
import { sellPrice } from '../pricing/markup.js';
import { subletCharge } from '../pricing/sublet.js';
import { copyFigure } from './copy-figure.js';
import type { Source } from './customer-copy.js';

/** The estimate without what is internal to the shop. Everything is named here one by one: what is new stays out. */
export function copyEstimate(source: Source, photos: boolean): Estimate {
  const { estimate, names, rates } = source;
  const known = new Set(estimate.findings.map((finding) => finding.id));
  return {
    format: 'baysheet-estimate',
    version: 1,
    id: estimate.id,
    number: estimate.number,
    revision: estimate.revision,
    createdAt: estimate.createdAt,
    vehicle: estimate.vehicle,
    customer: {
      name: estimate.customer.name,
      phone: '',
      email: '',
      taxExempt: estimate.customer.taxExempt.filter((id) => rates.taxes.has(id)).map(names.tax),
    },
    concern: estimate.concern,
    cause: '',
    correction: '',
    // Whether more may be found is all that is told of the tests.
    rounds: estimate.rounds.slice(-1).map(({ clean }) => ({ n: 1, method: '', clean, note: '' })),
    findings: estimate.findings.map((finding) => copyFinding(finding, source, photos)),
    lines: estimate.lines.map((line) => copyLine(line, source, known)),
    discounts: estimate.discounts.map((discount, i) => ({ ...discount, id: `d${i}` })),
    consents: [],
    history: [],
    extra: {},
  };
}

function copyFinding(finding: Finding, { names }: Source, photos: boolean): Finding {
  const seen = finding.seen.map((evidence) => copyEvidence(evidence, photos));
  return {
    id: names.finding(finding.id),
    round: 1,
    component: isBlank(finding.component) ? '' : names.component(finding.component),
    position: finding.position,
    fault: finding.fault,
    seen: seen.filter(({ how, reading, photo }) => how !== '' || reading !== '' || photo !== ''),
    urgency: finding.urgency,
    text: finding.text,
  };
}

/** A photo goes with the words for what it shows; one that was kept back stays in the shop with its words. */
function copyEvidence({ how, reading, photo, alt, forCustomer }: Evidence, photos: boolean): Evidence {
  const words = { how, note: '', reading };
  if (!photos || photo === '' || forCustomer === false) return { ...words, photo: '' };
  return { ...words, photo, ...(alt === undefined ? {} : { alt }) };
}

function copyLine(line: Line, source: Source, findings: ReadonlySet<string>): Line {
  const { names, rates } = source;
  const common = { id: line.id, taxes: line.taxes?.map(names.tax) ?? null, decision: line.decision, note: '' };
  switch (line.kind) {
    case 'operation':
      return {
        ...common,
        kind: line.kind,
        operation: names.operation(line.operation),
        positions: line.positions,
        findings: line.findings.filter((id) => findings.has(id)).map(names.finding),
        labourClass: line.labourClass === null ? null : names.labourClass(line.labourClass),
        bookHours: line.bookHours,
        extraHours: line.extraHours === null ? null : { hours: line.extraHours.hours, reason: '' },
        parts: copyOverrides(line, source),
      };
    case 'labour':
      return { ...common, kind: line.kind, title: line.title, hours: line.hours, labourClass: names.labourClass(line.labourClass) };
    case 'part':
      return {
        ...common,
        kind: line.kind,
        title: line.title,
        number: line.number,
        qty: line.qty,
        cost: '0',
        unitPrice: line.unitPrice ?? copyFigure(sellPrice(decimal(line.cost), null, rates)),
        core: line.core,
        condition: line.condition,
      };
    case 'sublet':
      return {
        ...common,
        kind: line.kind,
        title: line.title,
        cost: '0',
        price: line.price ?? copyFigure(subletCharge(line, rates).amount),
      };
    case 'fee':
      return { ...common, kind: line.kind, title: line.title, amount: line.amount };
    case 'note':
      return { ...common, kind: line.kind, text: line.text };
  }
}

/** A cost becomes the price that it comes to. Of parts that the catalogue lacks one is kept, so that the line stays unpriced. */
function copyOverrides(line: OperationLine, { names, index, rates }: Source): PartOverride[] {
  const known = line.parts.filter((override) => index.parts.has(override.part));
  const lost = line.parts.filter((override) => !index.parts.has(override.part)).slice(0, 1);
  return [...known, ...lost].map((override) => {
    const named = { ...override, part: names.part(override.part), cost: null };
    if (override.cost === null || override.unitPrice !== null || override.omit) return named;
    const list = index.parts.get(override.part)?.list ?? null;
    return { ...named, unitPrice: copyFigure(sellPrice(decimal(override.cost), list === null ? null : decimal(list), rates)) };
  });
}
