/**
 * Nothing private leaves the shop: a secret word of its own in every text of all three documents, and a secret figure in
 * every figure that is nobody's business; then the copy, the packed bytes unpacked again and the link are searched for all of them.
 * Whatever a customer may read is named one by one, so that a field which is added later counts as private until someone says otherwise.
 */
import { describe, expect, it } from 'vitest';
import { parseCatalogue, parseEstimate, parseRates, priceEstimate } from '../../../src/index.js';
import { decodeBase64url } from '../../../src/share/base64url.js';
import { customerCopy } from '../../../src/share/customer-copy.js';
import { DICTIONARY_2 } from '../../../src/share/dictionary.js';
import { openEstimate } from '../../../src/share/open.js';
import { sealEstimate } from '../../../src/share/seal.js';
import { unpackText } from '../../../src/share/text-coder.js';
import { PUBLIC } from '../../support/private-fields.js';
import { demoDocuments } from './documents.js';
import { newKey, shop } from './sealed.js';

/** Words of the formats: a secret cannot stand there. */
const FIXED =
  /\.(format|version|kind|decision|urgency|unit|per|condition|on|of|basis|mode|pick|base|rounding|taxRounding|currency|locale|createdAt|effectiveFrom|moneyStep|cashStep)$/;
/** In a catalogue this is a text, in a rate card a word of the format. */
const isFixed = (path: string): boolean => FIXED.test(path) && path !== 'catalogue.operations.basis';

const FIGURE = /^-?\d+(\.\d+)?$/;

const isId =
  /\.(id|operation|operations|instead|component|components|part|steps|needs|includes|fees|cautions|labourClass|findings|between|taxes|after|taxExempt|lines|methodId|closing)$/;

interface Planted {
  readonly value: unknown;
  readonly secrets: string[];
}

/** The document with a secret in every private place. Ids are renamed all over, so that references still lead somewhere. */
function plant(document: unknown, name: string): Planted {
  const secrets: string[] = [];
  const walk = (value: unknown, path: string): unknown => {
    if (Array.isArray(value)) return value.map((entry) => walk(entry, path));
    if (typeof value === 'object' && value !== null)
      return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, walk(entry, `${path}.${key}`)]));
    if (typeof value !== 'string' || isFixed(path)) return value;
    if (path === 'estimate.id' || path === 'estimate.lines.id' || path === 'estimate.discounts.lines') return value;
    if (isId.test(path)) return value === '' ? value : `zqid-${value}`;
    if (/\.codes(\.code)?$/.test(path)) return troubleCode();
    if (PUBLIC.has(path)) return value;
    if (FIGURE.test(value)) return figure(value);
    // Fault and component of remedies and findings must keep meeting; a position too.
    if (path === 'catalogue.remedies.fault' || path === 'catalogue.components.positions') return value;
    const word = `zqsecret${secrets.length}x${name}`;
    secrets.push(word);
    return `${value} ${word}`;
  };
  /** A trouble code can hold no word, so it is one that nothing else uses. */
  const troubleCode = (): string => {
    const code = `U3E${(0xa0 + (secrets.length % 0x60)).toString(16).toUpperCase()}`;
    secrets.push(code);
    return code;
  };
  /** 13.57 with a tail that no sum brings about by chance. */
  const figure = (value: string): string => {
    const tail = String(7_130_000 + secrets.length * 7).padStart(7, '0');
    const planted = `${value.includes('.') ? value : `${value}.`}${tail}`;
    secrets.push(tail);
    return planted;
  };
  return { value: walk(document, name), secrets };
}

/** The demo job, with something in every field that it leaves empty. */
function fullDocuments() {
  const { estimate, catalogue, rates } = demoDocuments();
  const lines = estimate.lines.map((line) => ({
    ...line,
    note: 'an internal note',
    ...(line.kind === 'operation' && line.id === 'l2'
      ? { parts: [{ part: 'coolant-litre', qty: '7', unitPrice: null, cost: '4.44', condition: null, omit: false }] }
      : {}),
  }));
  return {
    estimate: {
      ...estimate,
      lines,
      correction: 'what was done',
      customer: { ...estimate.customer, phone: '+1 303 555 0142', email: 'orla@example.com' },
      findings: estimate.findings.map((finding) => ({
        ...finding,
        seen: finding.seen.map((seen) => ({ ...seen, note: 'seen by', photo: 'data:image/png;base64,' })),
      })),
      rounds: estimate.rounds.map((round) => ({ ...round, note: 'round' })),
      consents: [{ who: 'consent', amount: '12.34' }],
      history: [{ what: 'history', deep: { er: 'entry' } }],
      extra: { margin: 'extra', list: ['one'] },
    },
    catalogue: { ...catalogue, parts: catalogue.parts.map((part) => ({ ...part, list: '99.99' })) },
    rates: { ...rates, sublet: { percent: '20' } },
  };
}

function planted() {
  const full = fullDocuments();
  const [estimate, catalogue, rates] = [plant(full.estimate, 'estimate'), plant(full.catalogue, 'catalogue'), plant(full.rates, 'rates')];
  const read = <T>(parsed: { ok: true; value: T } | { ok: false; problems: unknown }): T => {
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    return parsed.value;
  };
  return {
    documents: {
      estimate: read(parseEstimate(estimate.value)),
      catalogue: read(parseCatalogue(catalogue.value)),
      rates: read(parseRates(rates.value)),
      shop,
    },
    secrets: [...estimate.secrets, ...catalogue.secrets, ...rates.secrets],
  };
}

function found(secrets: readonly string[], text: string): string[] {
  return [...secrets, 'zqid-'].filter((secret) => text.includes(secret));
}

describe('secrets in every private field', () => {
  const { documents, secrets } = planted();

  it('are planted: in costs, mark-up, notes, causes, history, consents, cautions, ids and more', () => {
    expect(secrets.length).toBeGreaterThan(300);
    const text = JSON.stringify(documents);
    expect(found(secrets, text).length).toBe(secrets.length + 1);
    expect(priceEstimate(documents).complete).toBe(true);
    for (const [where, test] of [
      ['a part cost', documents.catalogue.parts[0]!.cost],
      ['a tier', documents.rates.parts.tiers[0]!.percent],
      ['the cost of sublet work', JSON.stringify(documents.estimate.lines.find((line) => line.kind === 'sublet'))],
      ['a line note', documents.estimate.lines[0]!.note],
      ['the cause', documents.estimate.cause],
      ['the telephone number', documents.estimate.customer.phone],
      ['history', JSON.stringify(documents.estimate.history)],
      ['a caution', documents.catalogue.cautions[0]!.text],
      ['a note of evidence', documents.estimate.findings[0]!.seen[0]!.note],
      ['an override', JSON.stringify(documents.estimate.lines[1])],
    ] as const) {
      expect(found(secrets, test).length, where).toBeGreaterThan(0);
    }
  });

  it('are in no copy, with photos or without', () => {
    expect(found(secrets, JSON.stringify(customerCopy(documents)))).toEqual([]);
    const photos = secrets.filter((secret) =>
      JSON.stringify(documents.estimate.findings.map(({ seen }) => seen.map(({ photo }) => photo))).includes(secret),
    );
    expect(photos.length).toBeGreaterThan(10);
    expect(found(secrets, JSON.stringify(customerCopy(documents, { photos: true })))).toEqual(photos);
  });

  it('are neither in the sealed bytes, nor in the link, nor in what is opened from it', async () => {
    const key = await newKey();
    const { token } = await sealEstimate(documents, key);
    const packed = decodeBase64url(token.split('.')[1]!)!;
    const unpacked = unpackText(packed.subarray(3), packed[1]! * 256 + packed[2]!, new TextEncoder().encode(DICTIONARY_2));
    const bytes = Buffer.from(unpacked!).toString('utf8');
    expect(bytes).toContain('Replace the water pump');
    expect(found(secrets, bytes)).toEqual([]);
    expect(found(secrets, token)).toEqual([]);
    const opened = await openEstimate(token, [key.publicJwk]);
    expect(opened.ok).toBe(true);
    expect(found(secrets, JSON.stringify(opened))).toEqual([]);
    if (opened.ok) {
      expect(priceEstimate(opened.copy).totals.total).toBe(priceEstimate(documents).totals.total);
      expect(found(secrets, JSON.stringify(priceEstimate(opened.copy)))).toEqual([]);
    }
  });

  it('and no word of the catalogue that the estimate does not use', () => {
    const text = JSON.stringify(customerCopy(demoDocuments()));
    const { catalogue } = demoDocuments();
    const taken = new Set(demoDocuments().estimate.lines.flatMap((line) => (line.kind === 'operation' ? [line.operation] : [])));
    const unused = catalogue.operations.filter(({ id }) => !taken.has(id));
    expect(unused.length).toBeGreaterThan(50);
    expect(unused.filter(({ title }) => text.includes(`"${title}"`)).map(({ title }) => title)).toEqual([]);
    expect(text).not.toMatch(/remed[a-z]+":\[\{|cautions":\[\{/);
  });
});
