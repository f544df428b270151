import type { Component } from '../../src/documents/catalogue.js';
import type { Finding, Urgency } from '../../src/documents/estimate.js';
import type { Line } from '../../src/documents/lines.js';
import { byId } from '../../src/documents/references.js';
import { decimal, type DecimalString, sum } from '../../src/number/decimal.js';
import { printMoney } from '../../src/number/money.js';
import { indexCatalogue } from '../../src/overlap/catalogue-index.js';
import { Deferral, type DeferralCost } from '../../src/pricing/deferral.js';
import type { PricedCharge, PricedEstimate, PricedLine } from '../../src/pricing/priced-estimate.js';
import { Pricer } from '../../src/pricing/pricer.js';
import { indexRates } from '../../src/pricing/rate-index.js';
import { taxAmounts, taxesOfCharge, taxRule } from '../../src/pricing/taxes.js';
import type { CustomerCopy } from '../../src/share/customer-copy.js';
import { type Answer, type Answers, answerTo } from './answers.js';

/** A line as the customer sees it. One that is not to be done is priced as it would be with those that are. */
export interface LineView {
  readonly line: Line;
  readonly priced: PricedLine;
  readonly answer: Answer | null;
  readonly charges: readonly PricedCharge[];
  readonly tax: DecimalString;
  /** Its charges less discount, with tax. */
  readonly total: DecimalString;
  readonly cost: DeferralCost;
  /** Steps that it has in common with lines that are to be done, and the titles of lines that it has other work in common with. */
  readonly sharedSteps: readonly string[];
  readonly sharedWork: readonly string[];
  /** Title of the line that it is part of. */
  readonly includedIn: string | null;
  /** The most urgent of its findings; null for a line that mends none. */
  readonly urgency: Urgency | null;
  readonly findings: readonly Finding[];
}

/** Everything that the page shows for one set of answers. */
export interface CustomerView {
  readonly copy: CustomerCopy;
  /** The price of what is to be done: yes, and not yet answered. */
  readonly priced: PricedEstimate;
  readonly lines: readonly LineView[];
  readonly notes: readonly string[];
  readonly answers: Answers;
  /** Ids of lines without an answer. */
  readonly open: readonly string[];
  readonly components: ReadonlyMap<string, Component>;
}

export const URGENCIES: readonly Urgency[] = ['unsafe', 'now', 'soon', 'watch'];

/** Works out, with the engine, what every set of answers comes to. */
export class CustomerModel {
  /** Whether the copy can be priced at all; one that cannot is not shown. */
  readonly usable: boolean;
  private readonly index;
  private readonly rates;
  private readonly pricer: Pricer;
  private readonly pricerOfOthers: Pricer;
  private readonly lines: readonly Line[];
  private readonly components;
  private readonly findings;
  private last: CustomerView | null = null;

  /** Throws where the copy is no copy: a host may hand over anything. */
  constructor(readonly copy: CustomerCopy) {
    this.index = indexCatalogue(copy.catalogue);
    this.rates = indexRates(copy.rates);
    this.pricer = new Pricer(this.index, this.rates);
    this.pricerOfOthers = new Pricer(this.index, this.rates);
    this.lines = copy.estimate.lines.filter((line) => line.kind !== 'note');
    this.components = byId(copy.catalogue.components);
    this.findings = byId(copy.estimate.findings);
    this.usable = this.pricer.price(copy.estimate, new Set(this.lines.map((line) => line.id))).complete;
  }

  view(answers: Answers): CustomerView {
    if (this.last?.answers === answers) return this.last;
    const { estimate } = this.copy;
    const doing = new Set(this.lines.flatMap(({ id }) => ((answerTo(answers, id) ?? 'yes') === 'yes' ? [id] : [])));
    const priced = this.pricer.price(estimate, doing);
    const deferral = new Deferral(estimate, priced, this.index, this.rates);
    this.last = {
      copy: this.copy,
      priced,
      lines: this.lines.map((line) => {
        const withIt = doing.has(line.id) ? priced : this.pricerOfOthers.price(estimate, new Set(doing).add(line.id));
        return this.lineView(line, withIt, answerTo(answers, line.id) ?? null, deferral.cost(line.id));
      }),
      notes: estimate.lines.flatMap((line) => (line.kind === 'note' ? [line.text] : [])),
      answers,
      open: this.lines.flatMap(({ id }) => (answerTo(answers, id) === undefined ? [id] : [])),
      components: this.components,
    };
    return this.last;
  }

  private lineView(line: Line, all: PricedEstimate, answer: Answer | null, cost: DeferralCost): LineView {
    const titleOf = (id: string): string => all.lines.find((other) => other.id === id)?.title ?? '';
    const priced = all.lines.find(({ id }) => id === line.id)!;
    const charges = all.charges.filter((charge) => charge.line === line.id);
    const ids = line.kind === 'operation' ? line.findings : [];
    const findings = ids.flatMap((id) => this.findings.get(id) ?? []);
    return {
      line,
      priced,
      answer,
      charges,
      ...this.withTax(charges),
      cost,
      sharedSteps: all.overlap.steps
        .filter((step) => step.lines.includes(line.id) && step.lines.length > 1)
        .map(({ title, position }) => (position === null ? title : `${title}, ${position}`)),
      sharedWork: all.overlap.pairs.flatMap(({ between: [a, b] }) => (a === line.id ? [titleOf(b)] : b === line.id ? [titleOf(a)] : [])),
      includedIn: priced.includedIn === null ? null : titleOf(priced.includedIn),
      urgency: URGENCIES.find((urgency) => findings.some((finding) => finding.urgency === urgency)) ?? null,
      findings,
    };
  }

  /** Rule 11 for the charges of one line by themselves; the bill rounds its taxes once for all lines, so cents may differ. */
  private withTax(charges: readonly PricedCharge[]): { tax: DecimalString; total: DecimalString } {
    const rule = taxRule(this.rates, this.copy.estimate.customer.taxExempt);
    const sums = charges.map(({ amount, discount, taxes }) => ({ taxes, net: decimal(amount).minus(decimal(discount)) }));
    const byCharge = sums.map(({ net, taxes }) => taxesOfCharge(net, taxes, rule));
    const rounded = new Map(rule.card.map(({ id }) => [id, sum(byCharge.map((amounts) => amounts.get(id)!))]));
    const tax = sum(taxAmounts(sums, rounded, rule).map(({ amount }) => amount));
    const net = sum(sums.map((each) => each.net));
    const { money } = this.rates;
    return { tax: printMoney(tax, money), total: printMoney(rule.included ? net : net.plus(tax), money) };
  }
}

/** Unsafe lines that are not to be done. */
export function unsafeLeft(view: CustomerView): readonly LineView[] {
  return view.lines.filter(({ urgency, answer }) => urgency === 'unsafe' && (answer === 'no' || answer === 'later'));
}

/** Where a line is done: `left front, right front`. */
export function positionsOf(line: Line): string {
  return line.kind === 'operation' ? line.positions.join(', ') : '';
}

/** The title of a line with where it is done. */
export function titleOf({ line, priced }: LineView): string {
  const positions = positionsOf(line);
  return positions === '' ? priced.title : `${priced.title}, ${positions}`;
}

export function isZero(figure: DecimalString): boolean {
  return /^-?0*(\.0*)?$/.test(figure);
}
