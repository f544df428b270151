/** Random documents with something in every field of the formats, also in those that the sum does not ask for. */
import { type Drawing, randomDocuments } from './arbitraries.js';
import type { CatalogueDoc, EstimateDoc, RatesDoc } from './oracle-documents.js';

type More = Readonly<Record<string, unknown>>;

export interface FullDocuments {
  readonly estimate: EstimateDoc & More;
  readonly catalogue: CatalogueDoc & More;
  readonly rates: RatesDoc;
}

const FAULTS = ['leaks', 'worn', 'seized'];
const PLACES = ['feed', 'return', 'left-front'];
const HASH = '0123456789abcdef'.repeat(4);
const PIXEL = 'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';

function fullCatalogue(d: Drawing, catalogue: CatalogueDoc): FullDocuments['catalogue'] {
  const operations = catalogue.operations.map(({ id }) => id);
  const someOperations = (): string[] => [d.pick(operations), ...d.some(operations, 20)].filter((id, i, all) => all.indexOf(id) === i);
  const components = ['hose', 'pump', 'brake'].map((id) => ({ id, title: `Component ${id}`, positions: d.some(PLACES, 60) }));
  const cautions = ['hot', 'heavy'].map((id) => ({ id, text: `Caution ${id}.` }));
  const methods = [
    {
      id: 'pressure',
      title: 'Pressure test',
      unit: 'kPa',
      start: '100',
      minutes: '15',
      drop: '2',
      least: null,
      most: null,
      cautions: ['hot'],
      closing: d.pick([null, ...operations]),
      basis: 'invented',
    },
    {
      id: 'voltage',
      title: 'Voltage',
      unit: 'V',
      start: null,
      minutes: null,
      drop: null,
      least: '9',
      most: '14.8',
      cautions: [],
      closing: null,
      basis: 'invented',
    },
  ];
  return {
    ...catalogue,
    components,
    cautions,
    remedies: components.flatMap(({ id }) =>
      d
        .some(FAULTS, 60)
        .map((fault) => ({ component: id, fault, operations: someOperations(), instead: d.chance(40) ? [someOperations()] : [] })),
    ),
    parts: catalogue.parts.map((part) => ({ ...part, ...(d.chance(60) ? { supplier: 'Invented Supply' } : {}) })),
    steps: catalogue.steps.map((step) => ({
      ...step,
      cautions: d.some(['hot', 'heavy'], 30),
      ...(d.chance(50) ? { open: `Take off ${step.id}`, close: `Put on ${step.id}` } : {}),
    })),
    operations: catalogue.operations.map((operation) => ({ ...operation, cautions: d.some(['hot', 'heavy'], 30) })),
    ...(d.chance(80) ? { methods } : {}),
  };
}

function fullEstimate(d: Drawing, estimate: EstimateDoc, { parts }: CatalogueDoc): FullDocuments['estimate'] {
  const rounds = Array.from({ length: d.int(1, 3) }, (_, i) => ({
    n: i + 1,
    method: 'a pressure test',
    clean: d.chance(40),
    note: 'of the round',
    ...(d.chance(60) ? { methodId: d.pick(['pressure', 'voltage']), reading: d.pick(['100 kPa to 38 kPa in 2 min', '12.1 V']) } : {}),
    ...(d.chance(20) ? { closing: false } : {}),
  }));
  const findings = Array.from({ length: d.int(1, 4) }, (_, i) => ({
    id: `f${i}`,
    round: d.int(1, 3),
    component: d.pick(['hose', 'pump', 'brake', '', 'something else']),
    position: d.pick(['', ...PLACES]),
    fault: d.pick(FAULTS),
    seen: Array.from({ length: d.int(0, 2) }, () => ({
      how: 'by eye',
      note: 'of the evidence',
      reading: '0.8 bar',
      photo: d.chance(50) ? PIXEL : '',
      ...(d.chance(50) ? { alt: 'what it shows' } : {}),
      ...(d.chance(50) ? { forCustomer: d.chance(50) } : {}),
    })),
    urgency: d.pick(['unsafe', 'now', 'soon', 'watch']),
    text: 'what was found',
    ...(d.chance(40) ? { plugged: 'with a bung' } : {}),
    ...(d.chance(40) ? { codes: ['P0171'] } : {}),
  }));
  const lines = estimate.lines.map((line) => ({
    ...line,
    ...(line.kind === 'operation' ? { findings: d.some(findings, 30).map(({ id }) => id) } : {}),
    ...(line.kind === 'part' && d.chance(50) ? { supplier: 'Invented Supply' } : {}),
    ...(d.chance(50) ? { note: 'of the line' } : {}),
  }));
  return {
    ...estimate,
    vehicle: { label: 'made-up van', vin: '1M8GDM9AXKP042788', plate: 'INV 142', odometer: '128400', unit: 'km' },
    customer: { ...estimate.customer, phone: '+1 303 555 0142', email: 'orla@example.com' },
    concern: d.chance(70) ? 'what the customer said' : '',
    cause: d.chance(70) ? 'what it was' : '',
    correction: d.chance(70) ? 'what was done' : '',
    rounds,
    findings,
    lines,
    consents: [{ id: 'c1', note: 'of the consent', deep: { er: ['still'] } }],
    history: [{ what: 'revised', by: 'somebody', deep: { er: ['still'] } }],
    extra: { margin: 'internal', list: ['one'] },
    ...(d.chance(60)
      ? {
          partsRun: parts.slice(0, 2).map((part) => ({
            part: part.id,
            number: part.number,
            title: part.title,
            condition: 'new',
            state: d.pick(['to-find', 'in-stock', 'ordered', 'here']),
            qty: '2',
            supplier: 'Invented Supply',
            note: 'of the part',
          })),
        }
      : {}),
    ...(d.chance(60) ? { codes: [{ code: 'P0171', note: 'of the code' }] } : {}),
    ...(d.chance(60) ? { quoted: { rates: HASH, catalogue: HASH } } : {}),
  };
}

export function fullDocuments(d: Drawing): FullDocuments {
  const { estimate, catalogue, rates } = randomDocuments(d);
  return {
    estimate: fullEstimate(d, estimate, catalogue),
    catalogue: fullCatalogue(d, catalogue),
    rates: { ...rates, effectiveFrom: '2026-01-01' },
  };
}
