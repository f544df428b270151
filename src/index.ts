/** The engine: no DOM, runs in Node, in a page and in a worker. */

export { type Catalogue, parseCatalogue } from './documents/catalogue.js';
export { type Estimate, parseEstimate } from './documents/estimate.js';
export { parseRates, type AuthorisationRule, type Rates } from './documents/rates.js';
export type { ChargeKind, Condition } from './documents/fields.js';
export type { Decision, Line } from './documents/lines.js';
export { type Parsed, printProblem, type Problem, type Severity } from './documents/problem.js';
export { checkVin } from './documents/vin.js';

export { type Alternatives, type Proposal, proposeLines, type Unanswered } from './findings/propose-lines.js';
export { hiddenBy, listComplete } from './findings/rounds.js';

export { checkCatalogue } from './overlap/check-catalogue.js';

export { checkRates } from './pricing/check-rates.js';
export { type DeferralCost, deferralCosts } from './pricing/deferral.js';
export type { Documents } from './pricing/documents.js';
export { type PartsRunEntry, partsRun } from './pricing/parts-run.js';
export { priceEstimate, type PriceOptions } from './pricing/price-estimate.js';
export type {
  PricedCharge,
  PricedEstimate,
  PricedLine,
  PricedOverlap,
  PricedStep,
  PricedTax,
  PricedTotals,
} from './pricing/priced-estimate.js';

export { type ConsentNeed, headroom, needsConsent } from './consent/headroom.js';
export { checkHistory, type HistoryEntry } from './consent/history.js';
export { type Consent, type ConsentDetails, type ConsentWay, readConsents, recordConsent } from './consent/record.js';
export { type Difference, revise, standing, type Standing } from './consent/revision.js';

export { type ChargedJobs, chargedJobs } from './replay/charged-hours.js';
export { type ClockedHours, type ClockedTable, readClockedHours } from './replay/clocked-hours.js';
export { type Goal, type GoalAnswer, type GoalOptions, seekGoal } from './replay/goal.js';
export type { Knob } from './replay/knobs.js';
export { replay, type ReplayAnswer, type ReplayOptions, type ReplayResult } from './replay/replay.js';
export type { ReplaySide } from './replay/sides.js';
export { type TimeFeedback, timeFeedback } from './replay/time-feedback.js';

export { type BudgetFit, fitToBudget } from './share/budget.js';
export { type CustomerCopy, customerCopy } from './share/customer-copy.js';
export { ShareFault } from './share/fault.js';
export type { PublicJwk, SigningKey, TrustedKeys } from './share/keys.js';
export { openEstimate, type Opened } from './share/open.js';
export type { Reply } from './share/reply.js';
export { type OpenedReply, openReply, sealReply } from './share/reply-text.js';
export { sealEstimate, type Sealed } from './share/seal.js';
export type { Shop, ShopSettings } from './share/shop.js';

export { contentHash } from './versions/content-hash.js';
export { priceAgain, type PricedAgain, type Terms } from './versions/price-again.js';
export { type RateChange, ratesDifference } from './versions/rates-difference.js';

export { type PartsPlan, type PartToGet, planPartsRun } from './work/parts-plan.js';
export type { SheetPart } from './work/sheet-parts.js';
export { type SheetEntry, type WorkSheet, workSheet } from './work/work-sheet.js';
export { type JobWords, type WriteUp, writeUp } from './work/write-up.js';
