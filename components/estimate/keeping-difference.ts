import { linesNow } from '../../src/consent/record.js';
import { difference } from '../../src/consent/revision.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import { formatMoney } from '../look/format.js';

/** One thing in which two versions of an estimate differ, each side in words. */
export interface Differing {
  readonly what: string;
  readonly here: string;
  readonly there: string;
}

export interface Version {
  readonly estimate: Estimate;
  readonly priced: PricedEstimate;
}

const ABSENT = 'not there';

/** All in which two versions of one estimate differ, in the order of the sheet. Empty where they say the same. */
export function versionsDiffer(here: Version, there: Version, locale: string): Differing[] {
  return [
    ...fieldsDiffer(here.estimate, there.estimate),
    ...entriesDiffer(
      'Test round',
      here.estimate.rounds,
      there.estimate.rounds,
      ({ n }) => String(n),
      ({ n, method, clean }) => `${n} ${method}${clean ? ', clean' : ''}`,
    ),
    ...entriesDiffer(
      'Finding',
      here.estimate.findings,
      there.estimate.findings,
      ({ id }) => id,
      ({ component, position, fault, urgency }) => [component, position, fault, urgency].filter(Boolean).join(', '),
    ),
    ...linesDiffer(here, there, locale),
    ...entriesDiffer(
      'Discount',
      here.estimate.discounts,
      there.estimate.discounts,
      ({ id }) => id,
      ({ title, percent, amount }) => `${title} ${percent === null ? amount : `${percent}%`}`,
    ),
    ...restDiffers(here.estimate, there.estimate),
  ];
}

function fieldsDiffer(here: Estimate, there: Estimate): Differing[] {
  const fields: readonly (readonly [string, (estimate: Estimate) => string])[] = [
    ['Estimate number', ({ number }) => number],
    ['Revision', ({ revision }) => String(revision)],
    ['Vehicle', ({ vehicle }) => vehicle.label],
    ['Plate', ({ vehicle }) => vehicle.plate],
    ['VIN', ({ vehicle }) => vehicle.vin],
    ['Odometer', ({ vehicle }) => (vehicle.odometer === '' ? '' : `${vehicle.odometer} ${vehicle.unit}`)],
    ['Customer', ({ customer }) => customer.name],
    ['Phone', ({ customer }) => customer.phone],
    ['E-mail', ({ customer }) => customer.email],
    ['Exempt from', ({ customer }) => customer.taxExempt.join(', ')],
    ['What the customer said', ({ concern }) => concern],
    ['Cause', ({ cause }) => cause],
    ['Correction', ({ correction }) => correction],
    ['Trouble codes', ({ codes = [] }) => codes.map(({ code }) => code).join(', ')],
    ['Authorisations', ({ consents }) => String(consents.length)],
  ];
  return fields.flatMap(([what, read]) => {
    const [ours, theirs] = [read(here), read(there)];
    return ours === theirs ? [] : [{ what, here: ours || 'empty', there: theirs || 'empty' }];
  });
}

/** Entries by their id: there on one side only, or another on each. */
function entriesDiffer<T extends object>(
  one: string,
  here: readonly T[],
  there: readonly T[],
  idOf: (entry: T) => string,
  print: (entry: T) => string,
): Differing[] {
  const [ours, theirs] = [here, there].map((list) => new Map(list.map((entry) => [idOf(entry), entry])));
  return [...new Set([...ours!.keys(), ...theirs!.keys()])].flatMap((id) => {
    const [a, b] = [ours!.get(id), theirs!.get(id)];
    if (JSON.stringify(a) === JSON.stringify(b)) return [];
    const [words, others] = [a, b].map((entry) => (entry === undefined ? ABSENT : print(entry)));
    return words === others
      ? [{ what: `${one}: ${words}`, here: 'details differ', there: 'details differ' }]
      : [{ what: one, here: words!, there: others! }];
  });
}

function linesDiffer(here: Version, there: Version, locale: string): Differing[] {
  const why = new Map(difference(linesNow(there.priced), here.priced).moved.map((line) => [line.id, line.why.join(', ')]));
  const print = ({ priced }: Version) => {
    const lines = new Map(priced.lines.map((line) => [line.id, line]));
    return ({ id }: { readonly id: string }): string => {
      const { title, amount, decision, kind } = lines.get(id)!;
      return [title, kind === 'note' ? '' : formatMoney(amount, priced.currency, locale), decision === 'proposed' ? '' : decision]
        .filter(Boolean)
        .join(', ');
    };
  };
  const [ours, theirs] = [here, there].map((version) => {
    const words = print(version);
    return new Map(version.estimate.lines.map((line) => [line.id, { json: JSON.stringify(line), words: words(line) }]));
  });
  return [...new Set([...ours!.keys(), ...theirs!.keys()])].flatMap((id) => {
    const [a, b] = [ours!.get(id), theirs!.get(id)];
    if (a?.json === b?.json && a?.words === b?.words) return [];
    const reasons = why.get(id);
    const what = reasons === undefined ? 'Line' : `Line (${reasons})`;
    if (a?.words === b?.words) return [{ what: `Line: ${a?.words}`, here: 'details differ', there: 'details differ' }];
    return [{ what, here: a?.words ?? ABSENT, there: b?.words ?? ABSENT }];
  });
}

/** Keys that have no words of their own here. */
function restDiffers(here: Estimate, there: Estimate): Differing[] {
  const told: readonly (readonly [string, keyof Estimate])[] = [
    ['Notes of the parts run', 'partsRun'],
    ['Rate card and catalogue it is quoted under', 'quoted'],
    ['History', 'history'],
    ['Other data', 'extra'],
  ];
  return told.flatMap(([what, key]) =>
    JSON.stringify(here[key]) === JSON.stringify(there[key]) ? [] : [{ what, here: 'differs', there: 'differs' }],
  );
}
