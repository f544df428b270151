/** Everything that can be asked of three documents which the engine has let in: none of it may throw. */
import { closingTests, closingToPropose } from '../../src/findings/closing-tests.js';
import { explainedCodes } from '../../src/findings/codes.js';
import { judgeReading, limitsText } from '../../src/findings/judge-reading.js';
import { foundRounds } from '../../src/findings/rounds.js';
import { cameToLight, roundsText, whyIncomplete } from '../../src/findings/round-words.js';
import { catalogueToJson } from '../../src/exchange/catalogue-json.js';
import { linesFromCsv } from '../../src/exchange/lines-from-csv.js';
import { linesToCsv } from '../../src/exchange/lines-to-csv.js';
import { operationsToCsv } from '../../src/exchange/operations-csv.js';
import { readTable } from '../../src/exchange/read-table.js';
import {
  type Catalogue,
  chargedJobs,
  checkCatalogue,
  checkHistory,
  checkRates,
  contentHash,
  customerCopy,
  deferralCosts,
  type Estimate,
  fitToBudget,
  hiddenBy,
  listComplete,
  needsConsent,
  parseCatalogue,
  parseEstimate,
  parseRates,
  partsRun,
  planPartsRun,
  priceAgain,
  type PricedEstimate,
  priceEstimate,
  printProblem,
  proposeLines,
  type Rates,
  ratesDifference,
  readConsents,
  recordConsent,
  replay,
  revise,
  ShareFault,
  standing,
  timeFeedback,
  workSheet,
  writeUp,
} from '../../src/index.js';
import { assertAddsUp } from '../support/assert-adds-up.js';
import type { Timed } from './proof.js';

export interface Accepted {
  readonly estimate: Estimate;
  readonly catalogue: Catalogue;
  readonly rates: Rates;
}

/** So many lines are priced one by one, in turns with the page: it may take as long as it takes. */
const MANY = 100;

/** Digits up to which the engine's sums are exact by a wide margin. */
const EXACT = 50;

export async function exercise(documents: Accepted, timed: Timed): Promise<PricedEstimate> {
  const { estimate, catalogue, rates } = documents;
  const approved = {
    ...documents,
    estimate: { ...estimate, lines: estimate.lines.map((line) => ({ ...line, decision: 'approved' as const })) },
  };
  const priced = timed('priceEstimate', () => priceEstimate(documents));
  if (priced.totals.total.length < EXACT && priced.totals.tax.length < EXACT) assertAddsUp(priced, rates);
  for (const problem of priced.problems) printProblem(problem);
  const costs = estimate.lines.length > MANY ? deferralCosts(documents) : timed('deferralCosts', () => deferralCosts(documents));
  const lost = priced.lines.filter((line) => line.priced && line.kind !== 'note' && !Object.hasOwn(costs, line.id));
  if (lost.length > 0) throw new Error(`no cost of waiting for ${lost.map(({ id }) => id).join()}`);
  timed('partsRun', () => partsRun(priced));
  timed('checkRates', () => checkRates(rates));
  timed('checkCatalogue', () => checkCatalogue(catalogue));
  for (const each of [documents, approved]) {
    timed('planPartsRun', () => planPartsRun(each));
    timed('workSheet', () => workSheet(each));
    timed('writeUp', () => writeUp(each));
  }
  timed('askFindings', () => askFindings(estimate, catalogue, rates));
  timed('askConsent', () => askConsent(estimate, priced, rates));
  timed('askTables', () => askTables(estimate, catalogue, rates, priced));
  timed('askCopy', () => askCopy(documents));
  for (const document of [estimate, catalogue, rates]) contentHash(document);
  timed('ratesDifference', () => ratesDifference(rates, rates));
  timed('priceAgain', () => priceAgain(estimate, documents, documents));
  await timed('replay', () => askPast(documents));
  return priced;
}

function askFindings(estimate: Estimate, catalogue: Catalogue, { locale }: Rates): void {
  const proposal = proposeLines(estimate, catalogue);
  const again = parseEstimate({ ...estimate, lines: proposal.lines });
  if (!again.ok) throw new Error(`proposed lines do not read: ${again.problems.map(printProblem).join('; ')}`);
  closingTests(estimate, estimate.lines, catalogue);
  closingToPropose(estimate, estimate.lines, catalogue);
  explainedCodes(estimate);
  foundRounds(estimate);
  listComplete(estimate);
  whyIncomplete(estimate);
  roundsText(estimate);
  for (const finding of estimate.findings) {
    hiddenBy(finding, estimate);
    cameToLight(finding, estimate, catalogue);
  }
  for (const method of catalogue.methods ?? []) {
    limitsText(method);
    for (const { reading = '' } of estimate.rounds) judgeReading(method, reading, locale);
  }
}

function askConsent(estimate: Estimate, priced: PricedEstimate, rates: Rates): void {
  checkHistory(estimate);
  readConsents(estimate);
  standing(estimate, priced, rates.authorisation);
  needsConsent(priced, priced.totals.total, rates.authorisation);
  const details = {
    at: '2026-03-02T15:00:00Z',
    by: 'A. Customer',
    takenBy: 'B. Advisor',
    how: 'phone',
    contact: '+1 303 555 0142',
  } as const;
  const recorded = recordConsent(estimate, priced, rates.authorisation, details);
  if (!recorded.ok) return;
  if (readConsents(recorded.estimate).consents.at(-1)?.total !== priced.totals.total)
    throw new Error('a consent that was recorded does not read');
  standing(recorded.estimate, priced, rates.authorisation);
  revise(recorded.estimate, details.at);
}

function askTables(estimate: Estimate, catalogue: Catalogue, rates: Rates, priced: PricedEstimate): void {
  const table = linesToCsv({ lines: estimate.lines, form: { separator: ';', decimalMark: ',' }, priced });
  const back = linesFromCsv(table, { locale: 'de', catalogue, there: [], labourClass: '' });
  if (back.lines.length + back.bad.length > estimate.lines.length)
    throw new Error(`a table of ${estimate.lines.length} lines reads as ${back.lines.length + back.bad.length}`);
  readTable(operationsToCsv(catalogue, { separator: ',', decimalMark: '.' }));
  const again = parseCatalogue(catalogueToJson(catalogue));
  if (!again.ok) throw new Error(`a written catalogue does not read: ${again.problems.map(printProblem).join('; ')}`);
  linesToCsv({ lines: estimate.lines, form: { separator: '\t', decimalMark: '.' } });
  if (!parseRates(JSON.stringify(rates)).ok || !parseEstimate(JSON.stringify(estimate)).ok)
    throw new Error('what was read does not read again');
}

function askCopy(documents: Accepted): void {
  try {
    const copy = customerCopy(documents, { photos: true });
    const [mine, theirs] = [priceEstimate(documents).totals.total, priceEstimate(copy).totals.total];
    if (mine !== theirs) throw new Error(`the customer's copy comes to ${theirs}, the estimate to ${mine}`);
    if (copy.estimate.lines.length <= 6) fitToBudget(copy, '100.00');
  } catch (fault) {
    if (!(fault instanceof ShareFault)) throw fault;
  }
}

async function askPast({ estimate, catalogue, rates }: Accepted): Promise<void> {
  const past = await replay([estimate, '{', null, estimate], catalogue, rates, rates, { wage: '38.50' });
  if (past.ok && past.result.counts.read !== 4) throw new Error('a replay has not read all estimates');
  const rows = estimate.lines.map((line, i) => ({
    line: i + 1,
    operation: line.kind === 'operation' ? line.operation : line.id,
    hours: '1',
    estimate: estimate.id,
  }));
  const jobs = await chargedJobs(rows, [estimate], catalogue, rates);
  timeFeedback(rows, catalogue, jobs.ok ? jobs.charged : undefined);
}
