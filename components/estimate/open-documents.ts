import { type Catalogue, parseCatalogue } from '../../src/documents/catalogue.js';
import { type Estimate, parseEstimate } from '../../src/documents/estimate.js';
import type { Parsed, Problem } from '../../src/documents/problem.js';
import { parseRates, type Rates } from '../../src/documents/rates.js';
import { fetchDocument } from '../look/documents.js';

export interface Documents {
  readonly catalogue: Catalogue;
  readonly rates: Rates;
  readonly estimate: Estimate;
}
export type DocumentName = keyof Documents;

const PARSE: { readonly [N in DocumentName]: (json: unknown) => Parsed<Documents[N]> } = {
  catalogue: parseCatalogue,
  rates: parseRates,
  estimate: parseEstimate,
};

/** How the documents are called in words. */
export const NAMES: Readonly<Record<DocumentName, string>> = { catalogue: 'catalogue', rates: 'rate card', estimate: 'estimate' };

/**
 * The three documents that an element shows, from properties or from addresses. A document that cannot be read never
 * takes the place of one that could; its problems are kept until another one is set.
 */
export class OpenDocuments {
  private readonly values: Partial<Documents> = {};
  private readonly faults = new Map<DocumentName, readonly Problem[]>();
  private readonly loading = new Map<DocumentName, AbortController>();

  /** @param changed called after every change, also after one that failed */
  constructor(private readonly changed: (name: DocumentName, problems: readonly Problem[]) => void) {}

  get<N extends DocumentName>(name: N): Documents[N] | undefined {
    return this.values[name];
  }

  problems(): { readonly name: DocumentName; readonly problems: readonly Problem[] }[] {
    return [...this.faults].map(([name, problems]) => ({ name, problems }));
  }

  isLoading(): boolean {
    return this.loading.size > 0;
  }

  /** From a property: an object or JSON text. Null or undefined changes nothing. */
  set(name: DocumentName, json: unknown): void {
    this.stop(name);
    if (json === null || json === undefined) return;
    this.take(name, PARSE[name](ownCopy(json)));
  }

  /** From an address. A later `set` or `load` of the same document takes the place of this one. */
  async load(name: DocumentName, address: string): Promise<void> {
    this.stop(name);
    if (address === '') return;
    const abort = new AbortController();
    this.loading.set(name, abort);
    const parsed = await fetchDocument<Documents[DocumentName]>(address, PARSE[name], abort.signal);
    if (abort.signal.aborted) return;
    this.loading.delete(name);
    this.take(name, parsed);
  }

  /** Notes why another version of a document could not be read; the one that is there stays. */
  refuse(name: DocumentName, problems: readonly Problem[]): void {
    this.faults.set(name, problems);
    this.changed(name, problems);
  }

  /** Forgets why another version could not be read. */
  forgive(name: DocumentName): void {
    this.faults.delete(name);
  }

  private stop(name: DocumentName): void {
    this.loading.get(name)?.abort();
    this.loading.delete(name);
  }

  private take(name: DocumentName, parsed: Parsed<Documents[DocumentName]>): void {
    if (parsed.ok) {
      Object.assign(this.values, { [name]: parsed.value });
      this.faults.delete(name);
      this.changed(name, []);
    } else {
      this.refuse(name, parsed.problems);
    }
  }
}

/** A copy that the page cannot change any more. What a framework watches through proxies cannot be cloned, only written down. */
function ownCopy(json: unknown): unknown {
  try {
    return structuredClone(json);
  } catch {
    return writtenDown(json);
  }
}

/** What is no JSON at all stays as it is: reading it says so. */
function writtenDown(json: unknown): unknown {
  try {
    return JSON.parse(JSON.stringify(json));
  } catch {
    return json;
  }
}

/** An estimate with nothing in it yet. */
export function newEstimate(now: Date): Estimate {
  const parsed = parseEstimate({
    format: 'baysheet-estimate',
    version: 1,
    id: `e-${now.getTime().toString(36)}`,
    createdAt: now.toISOString(),
    rounds: [{ n: 1 }],
  });
  if (!parsed.ok) throw new Error('A new estimate must be valid.');
  return parsed.value;
}
