import type { Decimal } from '../number/decimal.js';

/** A value that was tried, and what came of it. */
export interface Tried {
  readonly value: Decimal;
  readonly figure: Decimal;
}

export interface Bisected {
  /**
   * Two neighbours on the grid, the target between them: one reaches it, the other falls short of it (null where the
   * target is met exactly at a value that was tried and nothing falls short). Null: no value does it.
   */
  readonly between: { readonly reached: Tried; readonly short: Tried | null } | null;
  /** Everything that was tried, by value. */
  readonly tried: readonly Tried[];
  /** Whether the figures that were seen only rise or only fall. */
  readonly monotone: boolean;
}

/** Places between the ends that are looked at first, so that a hump is not missed where the ends look alike. */
const QUARTERS = 4;

/**
 * Where a figure comes to a target, by bisection on a grid: `from`, `from` + step … up to `to`. Between two places
 * that lie on both sides of the target there is always a step that crosses it, whatever the figure does elsewhere; of
 * several such places the lowest is taken.
 *
 * @param measure what the figure is at a value; each value is asked for once
 */
export async function bisect(
  from: Decimal,
  to: Decimal,
  step: Decimal,
  target: Decimal,
  measure: (value: Decimal) => Promise<Decimal>,
): Promise<Bisected> {
  const last = to.minus(from).div(step).floor().toNumber();
  const known = new Map<number, Tried>();
  const at = async (place: number): Promise<Tried> => {
    let tried = known.get(place);
    if (tried === undefined) {
      const value = from.plus(step.times(place));
      known.set(place, (tried = { value, figure: await measure(value) }));
    }
    return tried;
  };
  const reaches = (tried: Tried): boolean => tried.figure.gte(target);

  const first = [...new Set(Array.from({ length: QUARTERS + 1 }, (_, i) => Math.round((last * i) / QUARTERS)))];
  for (const place of first) await at(place);
  const start = first.findIndex((place, i) => i + 1 < first.length && reaches(known.get(place)!) !== reaches(known.get(first[i + 1]!)!));
  let between: Bisected['between'] = null;
  if (start !== -1) {
    let [low, high] = [first[start]!, first[start + 1]!];
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (reaches(await at(middle)) === reaches(await at(low))) low = middle;
      else high = middle;
    }
    const [a, b] = [await at(low), await at(high)];
    between = reaches(a) ? { short: b, reached: a } : { short: a, reached: b };
  }
  if (between === null) {
    const exact = [...known.values()].find(({ figure }) => figure.eq(target));
    if (exact !== undefined) between = { reached: exact, short: null };
  }
  const tried = [...known].sort(([a], [b]) => a - b).map(([, each]) => each);
  return { between, tried, monotone: isMonotone(tried) };
}

function isMonotone(tried: readonly Tried[]): boolean {
  const pairs = tried.slice(1).map(({ figure }, i) => figure.cmp(tried[i]!.figure));
  return pairs.every((sign) => sign >= 0) || pairs.every((sign) => sign <= 0);
}
