import type { Operation } from '../../src/documents/catalogue.js';
import { closure } from '../../src/documents/closure.js';
import type { Rates } from '../../src/documents/rates.js';
import { decimal, printPlain, sum } from '../../src/number/decimal.js';
import type { CatalogueDraft } from '../../src/store/catalogue-draft.js';
import { countUses, type LinkTarget } from '../../src/store/catalogue-links.js';

/** What the desk looks up in a draft, worked out when it is first asked for. The draft need not make sense. */
export class CatalogueIndex {
  private readonly titles = new Map<LinkTarget, ReadonlyMap<string, string>>();
  private uses: ReturnType<typeof countUses> | null = null;
  private needs: ReadonlyMap<string, readonly string[]> | null = null;
  private readonly hours: Map<string, string>;

  /** @param before the index of the draft a moment ago, which knows already what has not changed */
  constructor(
    readonly draft: CatalogueDraft,
    readonly rates: Rates | null,
    before: CatalogueIndex | null = null,
  ) {
    // Own hours are looked up by what they are made of, and so hang on the steps alone.
    this.hours = before !== null && before.draft.steps === draft.steps ? before.hours : new Map<string, string>();
  }

  /** Titles by id of all that a link to `target` can name; none known where it is in a rate card that is not there. */
  titlesOf(target: LinkTarget): ReadonlyMap<string, string> {
    let known = this.titles.get(target);
    if (known === undefined) this.titles.set(target, (known = titles(target, this.draft, this.rates)));
    return known;
  }

  /** How many entries of the catalogue name an id. */
  usesOf(target: LinkTarget, id: string): number {
    this.uses ??= countUses(this.draft);
    return this.uses.get(target)?.get(id) ?? 0;
  }

  /** Steps that an operation or a step needs, also through others; without those that are not there. */
  stepsBehind(steps: readonly string[]): string[] {
    this.needs ??= new Map(this.draft.steps.map((step) => [step.id, step.needs]));
    const { needs } = this;
    return [
      ...closure(
        steps.filter((id) => needs.has(id)),
        (id) => needs.get(id)!.filter((inner) => needs.has(inner)),
      ),
    ];
  }

  /** Book hours of an operation less the hours of its steps; negative where they do not cover them. */
  ownHours({ steps, bookHours }: Operation): string {
    const key = `${bookHours} ${steps.join(' ')}`;
    let own = this.hours.get(key);
    if (own === undefined) {
      const hours = new Map(this.draft.steps.map((step) => [step.id, step.hours]));
      own = printPlain(decimal(bookHours).minus(sum(this.stepsBehind(steps).map((id) => decimal(hours.get(id)!)))));
      this.hours.set(key, own);
    }
    return own;
  }
}

function titles(target: LinkTarget, draft: CatalogueDraft, rates: Rates | null): ReadonlyMap<string, string> {
  switch (target) {
    case 'cautions':
      return new Map(draft.cautions.map(({ id, text }) => [id, text]));
    case 'fees':
    case 'labourClasses':
      return new Map((rates?.[target] ?? []).map(({ id, title }) => [id, title]));
    default:
      return new Map(draft[target].map(({ id, title }) => [id, title]));
  }
}
