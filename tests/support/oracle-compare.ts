/** Holds a priced estimate of the engine against the oracle, figure by figure. */
import type { OraclePrice } from './oracle.js';
import { Fraction } from './oracle-fraction.js';

/** The priced estimate of design section 5, as far as the oracle computes it. */
export interface PricedFigures {
  complete: boolean;
  lines: readonly {
    id: string;
    kind: string;
    priced: boolean;
    bookHours: string;
    sharedHours: string;
    chargedHours: string;
    rate: string;
    labour: string;
    amount: string;
    includedIn: string | null;
    carries: readonly string[];
    uses: readonly { step: string; position: string | null; carriedBy: string }[];
  }[];
  charges: readonly {
    line: string | null;
    kind: string;
    title: string;
    qty: string;
    unit: string;
    amount: string;
    discount: string;
    taxes: readonly string[];
  }[];
  overlap: {
    hours: string;
    money: string;
    steps: readonly {
      step: string;
      position: string | null;
      hours: string;
      lines: readonly string[];
      carriedBy: string;
      savedHours: string;
    }[];
    pairs: readonly { between: readonly [string, string]; hours: string }[];
  };
  totals: {
    labour: string;
    part: string;
    core: string;
    sublet: string;
    fee: string;
    supplies: string;
    subtotal: string;
    discount: string;
    taxes: readonly { id: string; base: string; amount: string }[];
    tax: string;
    total: string;
    cash: string;
  };
}

class Differences {
  readonly found: string[] = [];

  figure(where: string, engine: string, oracle: Fraction): void {
    if (!Fraction.of(engine).equals(oracle)) this.found.push(`${where}: engine ${engine}, oracle ${oracle}`);
  }

  same(where: string, engine: unknown, oracle: unknown): void {
    const [a, b] = [JSON.stringify(engine), JSON.stringify(oracle)];
    if (a !== b) this.found.push(`${where}: engine ${a}, oracle ${b}`);
  }
}

const sorted = (texts: readonly string[]): string[] => [...texts].sort();

function compareLines(priced: PricedFigures, oracle: OraclePrice, differences: Differences): void {
  differences.same(
    'line ids',
    priced.lines.map(({ id }) => id),
    oracle.lines.map(({ id }) => id),
  );
  oracle.lines.forEach((line, i) => {
    const engine = priced.lines[i];
    if (!engine) return;
    const at = `line ${line.id}`;
    if (engine.kind !== 'note') differences.same(`${at} priced`, engine.priced, line.priced);
    if (line.priced) differences.figure(`${at} bookHours`, engine.bookHours, line.book);
    if (line.priced) differences.figure(`${at} sharedHours`, engine.sharedHours, line.shared);
    differences.figure(`${at} chargedHours`, engine.chargedHours, line.charged);
    if (line.rate) differences.figure(`${at} rate`, engine.rate, line.rate);
    differences.figure(`${at} labour`, engine.labour, line.labour);
    differences.figure(`${at} amount`, engine.amount, line.amount);
    differences.same(`${at} includedIn`, engine.includedIn, line.includedIn);
    differences.same(`${at} carries`, sorted(engine.carries), sorted(line.carries));
    const uses = (list: PricedFigures['lines'][number]['uses']): string[] =>
      sorted(list.map(({ step, position, carriedBy }) => `${step}@${position} by ${carriedBy}`));
    differences.same(`${at} uses`, uses(engine.uses), uses(line.uses));
  });
}

function compareCharges(priced: PricedFigures, oracle: OraclePrice, differences: Differences): void {
  const name = (charge: { line: string | null; kind: string; title: string }): string =>
    `${charge.line} ${charge.kind} ${charge.kind === 'labour' ? '' : charge.title}`;
  differences.same('charges', priced.charges.map(name), oracle.charges.map(name));
  if (priced.charges.length !== oracle.charges.length) return;
  oracle.charges.forEach((charge, i) => {
    const engine = priced.charges[i]!;
    const at = `charge ${i} (${name(charge)})`;
    differences.figure(`${at} amount`, engine.amount, charge.amount);
    differences.figure(`${at} discount`, engine.discount, charge.discount);
    if (charge.kind === 'labour' || charge.kind === 'part' || charge.kind === 'core') {
      differences.figure(`${at} qty`, engine.qty, charge.qty);
      differences.figure(`${at} unit`, engine.unit, charge.unit);
    }
    differences.same(`${at} taxes`, sorted(engine.taxes), sorted(charge.taxes));
  });
}

function compareOverlap(priced: PricedFigures, oracle: OraclePrice, differences: Differences): void {
  differences.figure('overlap.hours', priced.overlap.hours, oracle.overlap.hours);
  differences.figure('overlap.money', priced.overlap.money, oracle.overlap.money);
  const pairs = (list: readonly { between: readonly [string, string]; hours: string | Fraction }[]): string[] =>
    sorted(list.map(({ between, hours }) => `${sorted(between).join('+')} ${Fraction.of(String(hours))}`));
  differences.same('overlap.pairs', pairs(priced.overlap.pairs), pairs(oracle.overlap.pairs));
  const engineSteps = priced.overlap.steps.map(
    (step) =>
      `${step.step}@${step.position} ${sorted(step.lines).join('+')} by ${step.carriedBy}: ` +
      `${Fraction.of(step.hours)} saved ${Fraction.of(step.savedHours)}`,
  );
  const oracleSteps = oracle.overlap.steps.map(
    (step) =>
      `${step.use.step}@${step.use.position} ${sorted(step.lines).join('+')} by ${step.carriedBy.line.id}: ` +
      `${step.hours} saved ${step.saved}`,
  );
  differences.same('overlap.steps', sorted(engineSteps), sorted(oracleSteps));
}

function compareTotals(priced: PricedFigures, oracle: OraclePrice, differences: Differences): void {
  const { taxes, ...figures } = oracle.totals;
  for (const [name, value] of Object.entries(figures)) {
    differences.figure(`totals.${name}`, priced.totals[name as keyof typeof figures], value);
  }
  differences.same(
    'totals.taxes',
    priced.totals.taxes.map(({ id }) => id),
    taxes.map(({ id }) => id),
  );
  taxes.forEach((tax, i) => {
    differences.figure(`tax ${tax.id} base`, priced.totals.taxes[i]!.base, tax.base);
    differences.figure(`tax ${tax.id} amount`, priced.totals.taxes[i]!.amount, tax.amount);
  });
}

/** Every figure that differs, in words; an empty list when the two agree. */
export function differences(priced: PricedFigures, oracle: OraclePrice): string[] {
  const found = new Differences();
  found.same('complete', priced.complete, oracle.complete);
  compareLines(priced, oracle, found);
  compareCharges(priced, oracle, found);
  compareOverlap(priced, oracle, found);
  compareTotals(priced, oracle, found);
  return found.found;
}
