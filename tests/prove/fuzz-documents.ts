/** Hostile documents: each is a value or problems, never a throw; what is let in can be asked for everything. */
import { parseCatalogue, parseEstimate, type Parsed, parseRates, priceEstimate } from '../../src/index.js';
import type { Drawing } from '../support/arbitraries.js';
import { fullDocuments } from '../support/full-documents.js';
import { harm, renameToPrototype, spoiltText } from '../support/hostile.js';
import { exercise } from './exercise.js';
import type { Count, Proof, Timed } from './proof.js';
import { assertUntouched, printed, textOf } from './untouched.js';

type Name = 'catalogue' | 'rates' | 'estimate';
type Documents = Record<Name, unknown>;

const PARSERS: Readonly<Record<Name, (json: unknown) => Parsed<never>>> = {
  catalogue: parseCatalogue,
  rates: parseRates,
  estimate: parseEstimate,
} as never;

/** One of the three documents made hostile: as a value, as its text, as a spoilt text. */
function hostile(d: Drawing, name: Name, count: Count): Documents {
  const documents = structuredClone(d.chance(8) ? renameToPrototype(d, fullDocuments(d)) : fullDocuments(d)) as unknown as Documents;
  if (d.chance(6)) {
    count('a spoilt text');
    documents[name] = spoiltText(d, JSON.stringify(documents[name]));
    return documents;
  }
  for (const what of harm(d, documents[name] as object)) count(what);
  if (d.chance(30)) documents[name] = textOf(documents[name]) || documents[name];
  return documents;
}

function checkProblems({ problems }: Parsed<unknown>, isOk: boolean): void {
  if (!isOk && !problems.some(({ severity }) => severity === 'error')) throw new Error('refused without an error');
  for (const { code, message, hint } of problems) {
    if (code === '' || message.trim() === '' || hint === '')
      throw new Error(`a problem without words: ${JSON.stringify({ code, message, hint })}`);
  }
}

async function tryDocuments(d: Drawing, name: Name, count: Count, timed: Timed): Promise<void> {
  const given = hostile(d, name, count);
  const before = printed(given);
  try {
    const parsed = timed('reading', () => PARSERS[name](given[name]));
    checkProblems(parsed, parsed.ok);
    const raw = priceEstimate(given as never);
    const read = { catalogue: parseCatalogue(given.catalogue), rates: parseRates(given.rates), estimate: parseEstimate(given.estimate) };
    count(parsed.ok ? '(let in)' : '(refused)');
    if (read.catalogue.ok && read.rates.ok && read.estimate.ok) {
      const priced = await exercise({ catalogue: read.catalogue.value, rates: read.rates.value, estimate: read.estimate.value }, timed);
      if (priced.totals.total !== raw.totals.total) throw new Error('a document and its parsed value are priced differently');
    } else if (raw.complete) throw new Error('priced without one of the documents');
    assertUntouched();
  } catch (fault) {
    throw new Error(`${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}\n${before}`, { cause: fault });
  }
  if (printed(given) !== before) throw new Error(`what was given has been changed\n${before}`);
}

const proof = (name: Name, title: string): Proof => ({
  name: `fuzz-${name}`,
  what: `hostile documents in the place of ${title}`,
  cases: 50_000,
  few: 250,
  reach: new Map([
    ['(let in)', 12],
    ['(refused)', 20],
  ]),
  try: (d, count, timed) => tryDocuments(d, name, count, timed),
});

export const fuzzDocuments: readonly Proof[] = [
  proof('catalogue', 'a catalogue'),
  proof('rates', 'a rate card'),
  proof('estimate', 'an estimate'),
];
