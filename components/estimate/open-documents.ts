import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { Parsed, Problem } from '../../src/documents/problem.js';
import type { Rates } from '../../src/documents/rates.js';
import { fetchDocument } from '../look/documents.js';

export interface Documents {
  readonly catalogue: Catalogue;
  readonly rates: Rates;
  readonly estimate: Estimate;
}
export type DocumentName = keyof Documents;

/** How each of them is read. */
type Parsers<N extends DocumentName> = { readonly [K in N]: (json: unknown) => Parsed<Documents[K]> };

/** How the documents are called in words. */
export const NAMES: Readonly<Record<DocumentName, string>> = { catalogue: 'catalogue', rates: 'rate card', estimate: 'estimate' };

/**
 * The documents that an element shows, from properties or from addresses. A document that cannot be read never
 * takes the place of one that could; its problems are kept until another one is set.
 */
export class OpenDocuments<N extends DocumentName> {
  private readonly values: Partial<Documents> = {};
  private readonly faults = new Map<N, readonly Problem[]>();
  private readonly loading = new Map<N, AbortController>();

  /** @param changed called after every change, also after one that failed */
  constructor(
    private readonly parsers: Parsers<N>,
    private readonly changed: (name: N, problems: readonly Problem[]) => void,
  ) {}

  get<K extends N>(name: K): Documents[K] | undefined {
    return this.values[name];
  }

  problems(): { readonly name: N; readonly problems: readonly Problem[] }[] {
    return [...this.faults].map(([name, problems]) => ({ name, problems }));
  }

  isLoading(): boolean {
    return this.loading.size > 0;
  }

  /** From a property: an object or JSON text. Null or undefined changes nothing. */
  set(name: N, json: unknown): void {
    this.stop(name);
    if (json === null || json === undefined) return;
    this.take(name, this.parsers[name](ownCopy(json)));
  }

  /** From an address. A later `set` or `load` of the same document takes the place of this one. */
  async load(name: N, address: string): Promise<void> {
    this.stop(name);
    if (address === '') return;
    const abort = new AbortController();
    this.loading.set(name, abort);
    const parsed = await fetchDocument<Documents[DocumentName]>(address, this.parsers[name], abort.signal);
    if (abort.signal.aborted) return;
    this.loading.delete(name);
    this.take(name, parsed);
  }

  /** Notes why another version of a document could not be read; the one that is there stays. */
  refuse(name: N, problems: readonly Problem[]): void {
    this.faults.set(name, problems);
    this.changed(name, problems);
  }

  /** Forgets why another version could not be read. */
  forgive(name: N): void {
    this.faults.delete(name);
  }

  private stop(name: N): void {
    this.loading.get(name)?.abort();
    this.loading.delete(name);
  }

  private take(name: N, parsed: Parsed<Documents[DocumentName]>): void {
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
