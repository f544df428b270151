import { Decimal, ZERO } from './decimal.js';

/**
 * Splits `amount` over `weights` in proportion, by the method of the largest remainder: every share is rounded
 * down to the money step, and the steps left over go one each to the shares that lost most, the first on a tie.
 * The shares add up to `amount` exactly.
 *
 * @param amount a whole number of steps
 * @param weights whole numbers of steps; their sum must be above zero
 */
export function allocate(amount: Decimal, weights: readonly Decimal[], step: Decimal): Decimal[] {
  const total = weights.reduce((sum, weight) => sum.plus(weight), ZERO);
  const shares = weights.map((weight) => {
    const exact = amount.times(weight);
    const whole = exact.div(total.times(step)).floor();
    return { whole, left: exact.minus(whole.times(total).times(step)) };
  });

  const given = shares.reduce((sum, share) => sum.plus(share.whole), ZERO);
  const leftOver = amount.div(step).minus(given).toNumber();
  const byLoss = shares
    .map((share, index) => ({ index, loss: share.left }))
    .sort((a, b) => b.loss.cmp(a.loss) || a.index - b.index);
  const luckier = new Set(byLoss.slice(0, leftOver).map((share) => share.index));

  return shares.map((share, index) => share.whole.plus(luckier.has(index) ? 1 : 0).times(step));
}
