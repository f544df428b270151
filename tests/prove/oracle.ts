/** The engine against the second computation in exact fractions: no figure may differ. */
import { deferralCosts, headroom, needsConsent, type PricedEstimate, priceEstimate } from '../../src/index.js';
import { type Drawing, randomDocuments } from '../support/arbitraries.js';
import { assertAddsUp } from '../support/assert-adds-up.js';
import { readDocuments } from '../support/builders.js';
import { moneyStepOf } from '../support/oracle-charges.js';
import { differences } from '../support/oracle-compare.js';
import type { Documents } from '../support/oracle-documents.js';
import { Fraction } from '../support/oracle-fraction.js';
import { oracleBasePrice, oracleHeadroom } from '../support/oracle-headroom.js';
import { REACH } from '../support/oracle-reach.js';
import { type OraclePrice, oraclePrice } from '../support/oracle.js';
import type { Proof } from './proof.js';

type Read = ReturnType<typeof readDocuments>;

function agree(what: string, engine: string, oracle: Fraction, documents: Documents): void {
  if (Fraction.of(engine).equals(oracle)) return;
  throw new Error(`${what}: engine ${engine}, oracle ${oracle}\n${JSON.stringify(documents)}`);
}

interface Prices {
  readonly priced: PricedEstimate;
  readonly oracle: OraclePrice;
}

/** The whole price: lines, charges, overlap, totals. */
function comparePrice(d: Drawing, documents: Documents, read: Read): Prices {
  const only = d.chance(20) ? new Set(d.some(documents.estimate.lines, 60).map(({ id }) => id)) : undefined;
  const priced = priceEstimate(read, { only });
  const oracle = oraclePrice(documents, only);
  const found = differences(priced, oracle);
  if (found.length > 0) throw new Error(`${found.join('\n')}\n${JSON.stringify({ documents, only: only && [...only] })}`);
  assertAddsUp(priced, documents.rates);
  return { priced, oracle };
}

/** Rule 15, with what was authorised near the price, where it matters. */
function compareConsent(d: Drawing, documents: Documents, read: Read, { priced, oracle }: Prices): void {
  const { rates } = documents;
  const rule = rates.authorisation;
  const base = oracleBasePrice(oracle, rule, rates.pricesIncludeTax);
  const step = moneyStepOf(rates);
  const authorised = base.minus(step.times(Fraction.of(d.int(0, 6000)))).plus(step.times(Fraction.of(d.int(0, 3))));
  const text = authorised.toString();
  const free = oracleHeadroom(rule, authorised, step);
  const need = needsConsent(priced, text, read.rates.authorisation);
  agree('headroom', headroom(read.rates.authorisation, text, step.toString()), free, documents);
  agree('headroom of the need', need.headroom, free, documents);
  agree('price in the base of the rule', need.price, base, documents);
  agree('limit', need.limit, authorised.plus(free), documents);
  const over = base.minus(authorised).minus(free);
  if (need.needed !== over.sign > 0) throw new Error(`needed: engine ${need.needed}, oracle over by ${over}\n${JSON.stringify(documents)}`);
  agree('over', need.over, over.sign > 0 ? over : Fraction.of(0), documents);
}

/** Rule 14 from nothing but totals. */
function compareDeferral(documents: Documents, read: Read): void {
  const costs = deferralCosts(read);
  const total = (ids: Iterable<string>): Fraction => oraclePrice(documents, new Set(ids)).totals.total;
  const inPrice = oraclePrice(documents)
    .lines.filter(({ priced }) => priced)
    .map(({ id }) => id);
  const answerable = inPrice.filter((id) => documents.estimate.lines.some((line) => line.id === id && line.kind !== 'note'));
  const left = answerable.filter((id) => costs[id] === undefined);
  if (left.length > 0) throw new Error(`no cost of waiting for ${left.join()}\n${JSON.stringify(documents)}`);
  for (const [id, cost] of Object.entries(costs)) {
    const without = inPrice.filter((other) => other !== id);
    const now = total([...without, id]).minus(total(without));
    const later = total([id]);
    agree(`${id} now`, cost.now, now, documents);
    agree(`${id} later`, cost.later, later, documents);
    agree(`${id} extra`, cost.extra, later.minus(now), documents);
  }
}

export const oracleProof: Proof = {
  name: 'oracle',
  what: 'random estimates, every figure of the engine against exact fractions',
  cases: 100_000,
  few: 2_200,
  reach: new Map([...Object.keys(REACH)].map((what) => [what, 1])),
  try(d, count) {
    const documents = randomDocuments(d);
    const read = readDocuments(documents);
    const prices = comparePrice(d, documents, read);
    compareConsent(d, documents, read, prices);
    const tried = { ...documents, ...prices.oracle };
    for (const [what, meets] of Object.entries(REACH)) if (meets(tried)) count(what);
  },
};

export const longFiguresProof: Proof = {
  name: 'figures',
  what: 'the same with figures as long as the formats allow',
  cases: 20_000,
  few: 220,
  long: true,
  try(d) {
    const documents = randomDocuments(d);
    const read = readDocuments(documents);
    compareConsent(d, documents, read, comparePrice(d, documents, read));
  },
};

export const deferralProof: Proof = {
  name: 'waiting',
  what: 'random estimates, what each line costs now and later against exact fractions',
  cases: 20_000,
  few: 220,
  try(d) {
    const documents = randomDocuments(d);
    compareDeferral(documents, readDocuments(documents));
  },
};
