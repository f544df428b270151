import type { Decision } from '../../src/documents/lines.js';
import { readNumber } from '../../src/number/locale-parse.js';
import { type BudgetFit, fitToBudgetInTurns } from '../../src/share/budget.js';
import type { CustomerCopy } from '../../src/share/customer-copy.js';
import { type Answer, type Answers, answerTo } from './answers.js';

/** So long the search may keep the page from answering, in milliseconds. */
const TURN = 12;

/**
 * What fits under the amount that the customer has typed; null where it is none. What was agreed to earlier stays; what was said no to,
 * and what was put off before the link was made, does not come back.
 *
 * @param isWanted asked between turns: when it is not, nothing comes of it and this throws
 */
export async function fit(
  copy: CustomerCopy,
  answers: Answers,
  typed: string,
  locale: string,
  isWanted: () => boolean,
): Promise<BudgetFit | null> {
  const figure = readNumber(typed, locale);
  if (!figure.ok || figure.value.startsWith('-')) return null;
  const ids = (wanted: (answer: Answer | undefined, earlier: Decision) => boolean): string[] =>
    copy.estimate.lines.filter(({ id, decision }) => wanted(answerTo(answers, id), decision)).map(({ id }) => id);
  const options = {
    keep: ids((answer, earlier) => answer === 'yes' && earlier === 'approved'),
    among: ids((answer, earlier) => answer !== 'no' && !(answer === 'later' && earlier === 'deferred')),
  };
  let began = performance.now();
  return fitToBudgetInTurns(copy, figure.value, options, async () => {
    if (performance.now() - began < TURN) return;
    await new Promise((go) => setTimeout(go));
    if (!isWanted()) throw new Error('The page wants something else by now.');
    began = performance.now();
  });
}
