/** Past estimates, read one after the other or one again by its place. None is kept by whoever reads them. */
export interface EstimateSource {
  /** In words, for a button and a heading: `214 files`. */
  readonly title: string;
  readonly count: number;
  /** The estimate at a place (0 to `count` − 1): JSON text or a parsed value. May reject: that one is left out and told. */
  read(at: number): unknown;
}

/** What is read at a time. */
export const BATCH = 40;

/** Some estimates of a source, an `Error` in the place of one that cannot be had. */
export async function readBatch(source: EstimateSource, from: number): Promise<unknown[]> {
  const batch: unknown[] = [];
  const end = Math.min(from + BATCH, source.count);
  for (let at = from; at < end; at += 1) {
    try {
      batch.push(await source.read(at));
    } catch (fault) {
      batch.push(fault instanceof Error ? fault : new Error(String(fault)));
    }
  }
  return batch;
}

/** Every `nth` estimate, the first among them: a sample, the same each time. */
export function everyNth(source: EstimateSource, nth: number): EstimateSource {
  if (nth <= 1) return source;
  return { title: source.title, count: Math.ceil(source.count / nth), read: (at) => source.read(at * nth) };
}
