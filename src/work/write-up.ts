import type { Estimate, Finding } from '../documents/estimate.js';
import type { Line } from '../documents/lines.js';
import type { Problem } from '../documents/problem.js';
import { limitsText } from '../findings/judge-reading.js';
import { whyIncomplete } from '../findings/round-words.js';
import { foundRounds, hiddenBy, isPlugged } from '../findings/rounds.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import type { Documents } from '../pricing/documents.js';
import type { PricedEstimate } from '../pricing/priced-estimate.js';
import { type ApprovedWork, lineWords, readApproved } from './approved.js';

/** What can be said of one job: of one line and the findings that it puts right. */
export interface JobWords {
  readonly line: string;
  readonly title: string;
  /** Empty for work that answers no finding. */
  readonly cause: string;
  /** Empty until the line is approved. */
  readonly correction: string;
}

/** The three texts of an estimate as they can be begun from what is recorded. */
export interface WriteUp {
  readonly concern: string;
  readonly cause: string;
  readonly correction: string;
  readonly jobs: readonly JobWords[];
  /** Why nothing could be begun, where a document cannot be used. */
  readonly problems: readonly Problem[];
}

/** The three texts of an estimate. */
export type WrittenUp = Pick<Estimate, 'concern' | 'cause' | 'correction'>;

/**
 * Concern, cause and correction begun in plain sentences from findings, readings, test rounds and approved lines: in
 * cause and correction one paragraph for each job, under its title. A beginning for a person to go on from; it knows
 * what is recorded and not what was done. Never throws.
 */
export function writeUp(documents: Documents): WriteUp {
  const read = readApproved(documents);
  return read.ok ? beginWriteUp(read.work) : { concern: '', cause: '', correction: '', jobs: [], problems: read.problems };
}

/** `writeUp` for documents that have been checked. */
export function beginWriteUp({ estimate, index, priced }: ApprovedWork): WriteUp {
  const told = new Set<string>();
  const jobs = estimate.lines.filter(isJob).map((line) => {
    const findings = line.kind === 'operation' ? estimate.findings.filter(({ id }) => line.findings.includes(id) && !told.has(id)) : [];
    for (const { id } of findings) told.add(id);
    return {
      line: line.id,
      title: lineWords(line, index),
      cause: findings.map((finding) => causeOf(finding, estimate, index)).join(' '),
      correction: line.decision === 'approved' ? correctionOf(line, estimate, index, priced) : '',
    };
  });
  return {
    concern: estimate.concern.trim() === '' ? concernOf(estimate, index) : estimate.concern,
    cause: paragraphs([...jobs.map(({ title, cause }) => paragraph(title, cause)), completeness(estimate)]),
    correction: paragraphs(jobs.map(({ title, correction }) => paragraph(title, correction))),
    jobs,
    problems: [],
  };
}

/** The texts of a write-up that are still empty, to be filled: what a person has typed is never touched. */
export function emptyTexts(typed: WrittenUp, begun: WrittenUp): Partial<WrittenUp> {
  const keys = ['concern', 'cause', 'correction'] as const;
  return Object.fromEntries(keys.filter((key) => typed[key].trim() === '' && begun[key] !== '').map((key) => [key, begun[key]]));
}

/** A text with a paragraph after it, unless it has it already. */
export function withParagraph(text: string, added: string): string {
  return text.includes(added) ? text : paragraphs([text.trimEnd(), added]);
}

/** A job's sentences under its title; empty where there are none. */
export function paragraph(title: string, sentences: string): string {
  return sentences === '' ? '' : `${title}\n${sentences}`;
}

function paragraphs(texts: readonly string[]): string {
  return texts.filter((text) => text !== '').join('\n\n');
}

/** Work that was offered and not refused. */
function isJob(line: Line): boolean {
  return (line.decision === 'proposed' || line.decision === 'approved') && line.kind !== 'fee' && line.kind !== 'note';
}

function concernOf({ findings }: Estimate, index: CatalogueIndex): string {
  const places = [...new Set(findings.map((finding) => placeOf(finding, index)))].filter((place) => place !== '');
  return places.length === 0 ? '' : `No concern is recorded. Found on the vehicle: ${places.join('; ')}.`;
}

function causeOf(finding: Finding, estimate: Estimate, index: CatalogueIndex): string {
  const round = estimate.rounds.some(({ n }) => n === finding.round) ? ` in test round ${finding.round}` : '';
  const place = placeOf(finding, index);
  const what = [place === '' ? '' : `at the ${place}`, finding.fault].filter((words) => words !== '').join(': ');
  const seen = finding.seen
    .map(({ how, reading, note }) => [how, reading, note].filter((words) => words !== '').join(', '))
    .filter((words) => words !== '');
  return [
    sentence(`Found${round} ${what === '' ? finding.text : what}`),
    cameAfter(finding, estimate, index),
    seen.length === 0 ? '' : sentence(`Seen as follows: ${seen.join('; ')}`),
  ]
    .filter((words) => words !== '')
    .join(' ');
}

/** That it was hidden until something else had been plugged or isolated, where that is recorded. */
function cameAfter(finding: Finding, estimate: Estimate, index: CatalogueIndex): string {
  const hid = hiddenBy(finding, estimate);
  if (hid.length === 0 || !hid.every(isPlugged)) return '';
  return sentence(`It came to light only after this had been plugged or isolated: ${hid.map((other) => placeOf(other, index)).join('; ')}`);
}

function completeness(estimate: Estimate): string {
  const last = foundRounds(estimate).at(-1);
  if (last === undefined) return '';
  return whyIncomplete(estimate) || `Test round ${last.round.n} was clean: nothing more was found.`;
}

function correctionOf(line: Line, estimate: Estimate, index: CatalogueIndex, priced: PricedEstimate): string {
  const fitted = fittedParts(line, priced);
  const parts = fitted.length === 0 ? '' : sentence(`Fitted: ${fitted.join('; ')}`);
  if (line.kind === 'part') return parts;
  if (line.kind === 'sublet') return 'Carried out elsewhere.';
  if (line.kind !== 'operation') return 'Carried out.';
  const included = priced.lines.filter(({ includedIn }) => includedIn === line.id).map(({ title }) => title);
  return [
    'Carried out.',
    parts,
    included.length === 0 ? '' : sentence(`Included: ${included.join('; ')}`),
    line.extraHours === null || line.extraHours.reason === '' ? '' : sentence(`More work than usual: ${line.extraHours.reason}`),
    testResult(line.operation, estimate, index),
  ]
    .filter((words) => words !== '')
    .join(' ');
}

/** "2 × Hose clip, 40 mm (HV-2043-40)", "Alternator (HV-7011-71, rebuilt)". */
function fittedParts(line: Line, priced: PricedEstimate): string[] {
  return priced.charges.flatMap(({ kind, line: of, part, title, qty }) => {
    if (kind !== 'part' || of !== line.id || part === undefined || qty.startsWith('-')) return [];
    const about = [part.number, part.condition === 'new' ? '' : part.condition].filter((words) => words !== '');
    return [`${qty === '1' ? '' : `${qty} × `}${title}${about.length === 0 ? '' : ` (${about.join(', ')})`}`];
  });
}

/** A closing test asks for the reading that proves the repair. */
function testResult(operation: string, { rounds }: Estimate, { catalogue: { methods = [] } }: CatalogueIndex): string {
  const closed = methods.filter(({ closing }) => closing === operation);
  const method = closed.find(({ id }) => rounds.some((round) => round.methodId === id)) ?? closed[0];
  if (method === undefined) return '';
  const limits = limitsText(method);
  return `${limits === '' ? '' : `${sentence(`Usual limits: ${limits}`)} `}Result: …`;
}

/** "heater hose (feed)"; a name in capitals stays. */
function placeOf({ component, position }: Finding, { catalogue }: CatalogueIndex): string {
  const title = catalogue.components.find(({ id }) => id === component)?.title ?? component;
  const inside = /^\p{Lu}\p{Ll}/u.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title;
  return position === '' ? inside : `${inside} (${position})`.trim();
}

function sentence(words: string): string {
  const whole = words.trim();
  return /[.!?…]$/.test(whole) ? whole : `${whole}.`;
}
