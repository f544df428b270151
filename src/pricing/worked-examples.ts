import type { Catalogue } from '../documents/catalogue.js';
import type { Estimate } from '../documents/estimate.js';
import type { Line } from '../documents/lines.js';
import type { Rates } from '../documents/rates.js';
import type { DecimalString } from '../number/decimal.js';
import { indexCatalogue } from '../overlap/catalogue-index.js';
import { Pricer } from './pricer.js';
import { indexRates } from './rate-index.js';

/** One line that a shop sells every day, priced by itself. */
export interface WorkedExample {
  /** What is sold: an hour of a labour class, a part of this cost, work bought in for this cost. */
  readonly of:
    | { readonly kind: 'labour'; readonly labourClass: string; readonly title: string }
    | { readonly kind: 'part' | 'sublet'; readonly cost: DecimalString };
  /** The charge itself. */
  readonly amount: DecimalString;
  /** What the customer pays, with supplies and taxes. */
  readonly total: DecimalString;
}

const NO_CATALOGUE: Catalogue = {
  format: 'baysheet-catalogue',
  version: 1,
  id: 'none',
  title: '',
  note: '',
  cautions: [],
  components: [],
  remedies: [],
  parts: [],
  steps: [],
  operations: [],
  overlaps: [],
};

const NOTHING: Omit<Estimate, 'lines'> = {
  format: 'baysheet-estimate',
  version: 1,
  id: 'example',
  number: '',
  revision: 1,
  createdAt: '',
  vehicle: { label: '', vin: '', plate: '', odometer: '', unit: 'mi' },
  customer: { name: '', phone: '', email: '', taxExempt: [] },
  concern: '',
  cause: '',
  correction: '',
  rounds: [],
  findings: [],
  discounts: [],
  consents: [],
  history: [],
  extra: {},
};

const COMMON = { id: 'l', taxes: null, decision: 'proposed' as const, note: '' };

/**
 * What a card makes of an hour of each of its labour classes, of a cheap, a middling and a dear part, and of work bought
 * in. Costs are 5, 50 and 500; a hundred times as much where money has no decimals.
 */
export function workedExamples(rates: Rates): WorkedExample[] {
  const index = indexRates(rates);
  const pricer = new Pricer(indexCatalogue(NO_CATALOGUE), index);
  const price = (of: WorkedExample['of'], line: Line): WorkedExample => {
    const priced = pricer.price({ ...NOTHING, lines: [line] });
    return { of, amount: priced.lines[0]!.amount, total: priced.totals.total };
  };
  const costs = index.money.digits === 0 ? ['500', '5000', '50000'] : ['5', '50', '500'];
  return [
    ...rates.labourClasses.map(({ id, title }) =>
      price({ kind: 'labour', labourClass: id, title: title || id }, { ...COMMON, kind: 'labour', title: '', hours: '1', labourClass: id }),
    ),
    ...costs.map((cost) =>
      price(
        { kind: 'part', cost },
        { ...COMMON, kind: 'part', title: '', number: '', qty: '1', cost, unitPrice: null, core: '0', condition: 'new' },
      ),
    ),
    price({ kind: 'sublet', cost: costs[1]! }, { ...COMMON, kind: 'sublet', title: '', cost: costs[1]!, price: null }),
  ];
}
