/**
 * Splits `amount` over `weights` in proportion, by the method of the largest remainder: every share is rounded
 * down to a whole number, and what is left over goes one each to the shares that lost most, the first on a tie.
 * The shares add up to `amount` exactly.
 *
 * @param amount a whole number, of money steps say
 * @param weights their sum must be above zero
 */
export function allocate(amount: bigint, weights: readonly bigint[]): bigint[] {
  let whole = 0n;
  for (const weight of weights) whole += weight;

  const shares: bigint[] = [];
  const losses: bigint[] = [];
  let leftOver = amount;
  for (const weight of weights) {
    const exact = amount * weight;
    const rest = exact % whole;
    // The rest of a credit is below zero: its share is rounded down too, away from zero.
    const loss = rest < 0n ? rest + whole : rest;
    const share = (exact - loss) / whole;
    shares.push(share);
    losses.push(loss);
    leftOver -= share;
  }

  // The sort is stable, so that the first comes first on a tie.
  const byLoss = [...losses.keys()].sort((a, b) => (losses[a]! > losses[b]! ? -1 : losses[a]! < losses[b]! ? 1 : 0));
  for (const lucky of byLoss.slice(0, Number(leftOver))) shares[lucky]! += 1n;
  return shares;
}
