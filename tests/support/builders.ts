/** Small documents for tests: every field of the format filled in, only what matters to the test spelled out. */
import { type Parsed, type PricedEstimate, parseCatalogue, parseEstimate, parseRates, priceEstimate } from '../../src/index.js';
import type {
  CatalogueDoc,
  Documents,
  EstimateDoc,
  FeeLine,
  LabourLine,
  LineDoc,
  OperationDoc,
  OperationLine,
  PartDoc,
  PartLine,
  RatesDoc,
  StepDoc,
  TaxDoc,
} from './oracle-documents.js';

export function aCatalogue(parts: Partial<CatalogueDoc> = {}): CatalogueDoc {
  return {
    format: 'baysheet-catalogue',
    version: 1,
    id: 'test',
    title: 'Test catalogue',
    note: 'hours invented for the test',
    cautions: [],
    components: [],
    remedies: [],
    parts: [],
    steps: [],
    operations: [],
    overlaps: [],
    ...parts,
  };
}

export function aStep(id: string, hours: string, more: Partial<StepDoc> = {}): StepDoc {
  return { id, title: `Step ${id}`, hours, per: 'vehicle', needs: [], parts: [], cautions: [], ...more };
}

export function anOperation(id: string, bookHours: string, more: Partial<OperationDoc> = {}): OperationDoc {
  return {
    id,
    title: `Operation ${id}`,
    system: 'test',
    labourClass: 'general',
    per: 'vehicle',
    bookHours,
    additionalHours: '0',
    steps: [],
    includes: [],
    parts: [],
    fees: [],
    cautions: [],
    basis: 'invented',
    ...more,
  };
}

export function aPart(id: string, cost: string, more: Partial<PartDoc> = {}): PartDoc {
  return { id, title: `Part ${id}`, number: id, cost, core: '0', condition: 'new', ...more };
}

/** A card with one labour rate of 100.00, no mark-up, no taxes. */
export function aRateCard(parts: Partial<RatesDoc> = {}): RatesDoc {
  return {
    format: 'baysheet-rates',
    version: 1,
    id: 'test',
    title: 'Test card',
    currency: 'USD',
    locale: 'en-US',
    effectiveFrom: '2026-01-01',
    rounding: 'half-up',
    moneyStep: null,
    labourClasses: [{ id: 'general', title: 'General repair', rate: '100.00' }],
    parts: { basis: 'markup', mode: 'whole', tiers: [{ percent: '0' }] },
    sublet: { percent: '0' },
    supplies: null,
    fees: [],
    taxes: [],
    taxRounding: 'total',
    pricesIncludeTax: false,
    cashStep: null,
    authorisation: null,
    ...parts,
  };
}

export function aTax(id: string, percent: string, more: Partial<TaxDoc> = {}): TaxDoc {
  return {
    id,
    title: `Tax ${id}`,
    percent,
    on: ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'],
    after: [],
    ...more,
  };
}

export function anEstimate(lines: LineDoc[], more: Partial<EstimateDoc> = {}): EstimateDoc {
  return {
    format: 'baysheet-estimate',
    version: 1,
    id: 'test',
    number: '1',
    revision: 1,
    createdAt: '2026-03-02T14:05:00Z',
    vehicle: { label: 'made-up van', vin: '', plate: '', odometer: '', unit: 'mi' },
    customer: { name: 'Invented Name', phone: '', email: '', taxExempt: [] },
    concern: '',
    cause: '',
    correction: '',
    rounds: [],
    findings: [],
    lines,
    discounts: [],
    consents: [],
    history: [],
    extra: {},
    ...more,
  };
}

export function operationLine(id: string, operation: string, more: Partial<OperationLine> = {}): OperationLine {
  return { id, kind: 'operation', operation, positions: [], findings: [], decision: 'proposed', ...more };
}

export function labourLine(id: string, hours: string, more: Partial<LabourLine> = {}): LabourLine {
  return { id, kind: 'labour', title: `Labour ${id}`, hours, labourClass: 'general', ...more };
}

export function partLine(id: string, qty: string, unitPrice: string | null, more: Partial<PartLine> = {}): PartLine {
  return {
    id,
    kind: 'part',
    title: `Part ${id}`,
    number: '',
    qty,
    cost: '0',
    unitPrice,
    core: '0',
    condition: 'new',
    ...more,
  };
}

export function feeLine(id: string, amount: string, more: Partial<FeeLine> = {}): FeeLine {
  return { id, kind: 'fee', title: `Fee ${id}`, amount, ...more };
}

/** Reads the three documents as a page would and prices them; a document that does not read fails the test. */
export function priceDocuments(documents: Documents, options?: { only?: ReadonlySet<string> }): PricedEstimate {
  return priceEstimate(readDocuments(documents), options);
}

/** The documents as the engine reads them. */
export function readDocuments({ estimate, catalogue, rates }: Documents) {
  return {
    estimate: read(parseEstimate(estimate)),
    catalogue: read(parseCatalogue(catalogue)),
    rates: read(parseRates(rates)),
  };
}

function read<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(`a test document does not read: ${JSON.stringify(parsed.problems)}`);
  return parsed.value;
}

/** Prices lines that need no catalogue. */
export function priceLines(lines: LineDoc[], rates: Partial<RatesDoc> = {}): PricedEstimate {
  return priceDocuments({ estimate: anEstimate(lines), catalogue: aCatalogue(), rates: aRateCard(rates) });
}
