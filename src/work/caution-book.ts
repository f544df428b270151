import type { CatalogueIndex } from '../overlap/catalogue-index.js';

/** A caution where it belongs: before the step or the work that needs it. */
export interface CautionAt {
  /** The same wherever it stands. */
  readonly n: number;
  /** In full where it stands first, after that its beginning. */
  readonly text: string;
  readonly first: boolean;
}

/** Numbers cautions as they come, so that a later place can refer to the first one. */
export class CautionBook {
  private readonly numbers = new Map<string, number>();

  constructor(private readonly index: CatalogueIndex) {}

  at(ids: Iterable<string>): CautionAt[] {
    return [...new Set(ids)].map((id) => {
      const text = this.index.cautions.get(id) ?? id;
      const known = this.numbers.get(id);
      if (known !== undefined) return { n: known, text: beginning(text), first: false };
      const n = this.numbers.size + 1;
      this.numbers.set(id, n);
      return { n, text, first: true };
    });
  }
}

/** Up to the first pause: "Never open a hot cooling system". */
function beginning(text: string): string {
  return text.split(/[:;.]( |$)/, 1)[0]!;
}
