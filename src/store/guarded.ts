import { isFixed } from '../consent/revision.js';
import type { Command, SheetState } from './commands.js';
import { reduce } from './reduce.js';

/**
 * Commands as they must be carried out on an estimate that may have been authorised or sent out: what the customer has
 * seen or agreed to is not changed in place, so the first change to its price makes the next revision.
 *
 * @param at the time, for the history
 */
export function guarded(commands: readonly Command[], state: SheetState, at: string): readonly Command[] {
  if (!isFixed(state.estimate)) return commands;
  const next = commands.reduce(reduce, state).estimate;
  const { lines, discounts, customer, revision, quoted } = state.estimate;
  // To write down what it was priced under all along changes no price.
  const sameTerms = quoted === undefined || next.quoted === quoted;
  const same = sameTerms && next.lines === lines && next.discounts === discounts && next.customer.taxExempt === customer.taxExempt;
  return same || next.revision !== revision || next.id !== state.estimate.id || next.consents !== state.estimate.consents
    ? commands
    : [{ do: 'revise', at }, ...commands];
}
