import { type Decimal, ONE, ZERO } from './decimal.js';

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
  const whole = total.times(step);
  const shares = weights.map((weight) => {
    const exact = amount.times(weight);
    const cut = exact.divToInt(whole);
    const left = exact.minus(cut.times(whole));
    // Cut off towards zero, so a credit's share is one step too high.
    return left.lt(ZERO) ? { steps: cut.minus(ONE), left: left.plus(whole) } : { steps: cut, left };
  });

  const given = shares.reduce((sum, share) => sum.plus(share.steps), ZERO);
  const leftOver = amount.div(step).minus(given).toNumber();
  // The sort is stable, so that the first comes first on a tie.
  const byLoss = shares.map((share, index) => ({ index, loss: share.left })).sort((a, b) => b.loss.cmp(a.loss));
  const luckier = new Set(byLoss.slice(0, leftOver).map((share) => share.index));

  return shares.map((share, index) => (luckier.has(index) ? share.steps.plus(ONE) : share.steps).times(step));
}
