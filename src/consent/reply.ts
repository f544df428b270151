import type { Estimate } from '../documents/estimate.js';
import { error, type Problem } from '../documents/problem.js';
import type { PricedEstimate } from '../pricing/priced-estimate.js';
import type { Reply } from '../share/reply.js';
import type { HistoryEntry } from './history.js';
import { linesNow, readLines } from './record.js';
import { type Difference, difference } from './revision.js';

/** Why a reply cannot be taken; for a stale one also what has changed since its copy was made. */
export interface ReplyRefusal {
  readonly problems: readonly Problem[];
  readonly difference: Difference | null;
}

/** An estimate with the customer's decisions on its lines; lines that the reply does not name stay as they are. */
export function withDecisions(estimate: Estimate, reply: Reply): Estimate {
  const lines = estimate.lines.map((line) => {
    // A line may be called "constructor", like something that every object has.
    if (!Object.hasOwn(reply.decisions, line.id)) return line;
    const decision = reply.decisions[line.id]!;
    return decision === line.decision ? line : { ...line, decision };
  });
  return { ...estimate, lines };
}

/**
 * Whether a reply belongs to this estimate as it stands: this estimate, this revision, lines that are there, and the
 * total that the customer saw. Null when it does.
 *
 * A reply is not signed by the customer: it shows what was sent back, not who sent it.
 *
 * @param priced the price of the estimate as it stands
 * @param decided the price with the reply's decisions (`withDecisions`)
 */
export function replyRefusal(estimate: Estimate, reply: Reply, priced: PricedEstimate, decided: PricedEstimate): ReplyRefusal | null {
  const refuse = (code: string, message: string, hint: string, changed: Difference | null = null): ReplyRefusal => ({
    problems: [error(code, '', message, hint)],
    difference: changed,
  });
  if (reply.estimate !== estimate.id) {
    return refuse('other-estimate', `This reply is to another estimate ("${reply.estimate}").`, 'Open that estimate first.');
  }
  const copy = estimate.history.find((entry) => entry['copy'] === reply.hash);
  const changed = difference(readLines(copy?.['lines']) ?? linesNow(priced), priced);
  if (reply.revision !== estimate.revision) {
    const message = `This reply is to revision ${reply.revision}; the estimate is at revision ${estimate.revision} now.`;
    return refuse('stale', message, 'Show the customer the present revision and ask again.', changed);
  }
  const missing = Object.keys(reply.decisions).filter((id) => !estimate.lines.some((line) => line.id === id));
  if (missing.length > 0) {
    return refuse(
      'lost-lines',
      `This reply decides on ${missing.length} lines that the estimate does not have.`,
      'Show the customer the present estimate and ask again.',
      changed,
    );
  }
  if (reply.total !== decided.totals.total || reply.currency !== decided.currency) {
    const message = `The customer saw a total of ${reply.total} ${reply.currency}; it comes to ${decided.totals.total} ${decided.currency} now.`;
    return refuse('price-moved', message, 'Show the customer the present estimate and ask again.', changed);
  }
  return null;
}

/** The history entry of a copy that was sealed for the customer. */
export function sharedEntry(priced: PricedEstimate, hash: string, at: string): Omit<HistoryEntry, 'revision' | 'hash'> {
  return { at, what: 'shared', by: '', total: priced.totals.total, copy: hash, lines: linesNow(priced) };
}
