/**
 * The three documents as plain JSON shapes (design section 3), written down a second time for the tests:
 * the oracle, the builders and the generators use these, never the engine's own types.
 */

export type Kind = 'labour' | 'part' | 'core' | 'sublet' | 'fee' | 'supplies';
export type Per = 'vehicle' | 'position';
export type Condition = 'new' | 'used' | 'rebuilt' | 'reconditioned';
export type Decision = 'proposed' | 'approved' | 'declined' | 'deferred';

export interface PartEntry {
  part: string;
  qty: string;
  each?: boolean;
}

export interface PartDoc {
  id: string;
  title: string;
  number: string;
  cost: string;
  list?: string;
  core: string;
  condition: Condition;
}

export interface StepDoc {
  id: string;
  title: string;
  hours: string;
  per: Per;
  needs: string[];
  parts: PartEntry[];
  cautions: string[];
}

export interface OperationDoc {
  id: string;
  title: string;
  system: string;
  labourClass: string;
  per: Per;
  bookHours: string;
  additionalHours?: string;
  steps: string[];
  includes: string[];
  parts: PartEntry[];
  fees: string[];
  cautions: string[];
  basis: string;
}

export interface CatalogueDoc {
  format: 'baysheet-catalogue';
  version: 1;
  id: string;
  title: string;
  note: string;
  cautions: { id: string; text: string }[];
  components: { id: string; title: string; positions: string[] }[];
  remedies: { component: string; fault: string; operations: string[]; instead: string[][] }[];
  parts: PartDoc[];
  steps: StepDoc[];
  operations: OperationDoc[];
  overlaps: { between: [string, string]; hours: string }[];
}

export interface TaxDoc {
  id: string;
  title: string;
  percent: string;
  on: Kind[];
  after: string[];
}

export interface FeeDoc {
  id: string;
  title: string;
  amount: string;
  per: 'estimate' | 'unit';
  taxes?: string[];
}

export interface SuppliesDoc {
  title: string;
  percent: string;
  of: Kind[];
  minimum: string | null;
  maximum: string | null;
  taxes?: string[];
}

export interface AuthorisationDoc {
  percent: string | null;
  amount: string | null;
  pick: 'lesser' | 'greater' | 'percent' | 'amount';
  cap: string | null;
  base: 'total' | 'before-tax';
  source: string;
}

export interface RatesDoc {
  format: 'baysheet-rates';
  version: 1;
  id: string;
  title: string;
  currency: string;
  locale: string;
  effectiveFrom: string;
  rounding: 'half-up' | 'half-even' | 'half-down';
  moneyStep: string | null;
  labourClasses: { id: string; title: string; rate: string }[];
  parts: {
    basis: 'markup' | 'list';
    mode: 'whole' | 'progressive';
    tiers: { upTo?: string; percent: string }[];
  };
  sublet: { percent: string } | null;
  supplies: SuppliesDoc | null;
  fees: FeeDoc[];
  taxes: TaxDoc[];
  taxRounding: 'total' | 'line';
  pricesIncludeTax: boolean;
  cashStep: string | null;
  authorisation: AuthorisationDoc | null;
}

export interface PartOverride {
  part: string;
  qty?: string;
  unitPrice?: string;
  cost?: string;
  condition?: Condition;
  omit?: boolean;
}

interface LineCommon {
  id: string;
  decision?: Decision;
  taxes?: string[];
}

export interface OperationLine extends LineCommon {
  kind: 'operation';
  operation: string;
  positions: string[];
  findings: string[];
  labourClass?: string;
  bookHours?: string;
  extraHours?: { hours: string; reason: string };
  parts?: PartOverride[];
}
export interface LabourLine extends LineCommon {
  kind: 'labour';
  title: string;
  hours: string;
  labourClass: string;
}
export interface PartLine extends LineCommon {
  kind: 'part';
  title: string;
  number: string;
  qty: string;
  cost: string;
  unitPrice: string | null;
  core: string;
  condition: Condition;
}
export interface SubletLine extends LineCommon {
  kind: 'sublet';
  title: string;
  cost: string;
  price: string | null;
}
export interface FeeLine extends LineCommon {
  kind: 'fee';
  title: string;
  amount: string;
}
export interface NoteLine extends LineCommon {
  kind: 'note';
  text: string;
}
export type LineDoc = OperationLine | LabourLine | PartLine | SubletLine | FeeLine | NoteLine;

export interface DiscountDoc {
  id: string;
  title: string;
  percent: string | null;
  amount: string | null;
  on: Kind[];
  lines: string[];
}

export interface EstimateDoc {
  format: 'baysheet-estimate';
  version: 1;
  id: string;
  number: string;
  revision: number;
  createdAt: string;
  vehicle: { label: string; vin: string; plate: string; odometer: string; unit: string };
  customer: { name: string; phone: string; email: string; taxExempt: string[] };
  concern: string;
  cause: string;
  correction: string;
  rounds: { n: number; method: string; clean: boolean; note: string; methodId?: string; reading?: string; closing?: boolean }[];
  findings: {
    id: string;
    round: number;
    component: string;
    position: string;
    fault: string;
    seen: { how: string; note: string; reading: string; photo: string; alt?: string; forCustomer?: boolean }[];
    urgency: string;
    text: string;
    plugged?: string;
    codes?: string[];
  }[];
  lines: LineDoc[];
  discounts: DiscountDoc[];
  consents: unknown[];
  history: unknown[];
  extra: Record<string, unknown>;
}

export interface Documents {
  estimate: EstimateDoc;
  catalogue: CatalogueDoc;
  rates: RatesDoc;
}
