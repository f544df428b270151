import type { Evidence, Finding } from '../../src/documents/estimate.js';
import type { Command } from '../../src/store/commands.js';
import { type PaneEdit, withText } from './pane-edit.js';

/** What an evidence that is only a photo is called until somebody says better. */
const PHOTO = 'photo';

/** A new, empty evidence at the end. */
export function addEvidence(finding: Finding): PaneEdit {
  return edit(finding, [...finding.seen, { how: '', note: '', reading: '', photo: '' }], 'new evidence');
}

/** One text of one evidence. */
export function describeEvidence(finding: Finding, index: number, key: 'how' | 'reading' | 'note' | 'alt', text: string): PaneEdit {
  const what = { how: 'way of seeing', reading: 'reading', note: 'note', alt: 'words for a photo' }[key];
  return change(finding, index, what, (evidence) =>
    key === 'alt' ? withText(evidence, 'alt', text) : { ...evidence, [key]: text.trim() },
  );
}

export function removeEvidence(finding: Finding, index: number): PaneEdit {
  return edit(finding, finding.seen.toSpliced(index, 1), 'removal of evidence');
}

/** Photos, the first to the evidence at `index` where it has none, each other one as an evidence of its own. */
export function addPhotos(finding: Finding, photos: readonly string[], index: number | null): PaneEdit {
  const seen = [...finding.seen];
  const rest = [...photos];
  const target = index === null ? undefined : seen[index];
  if (target !== undefined && target.photo === '' && rest.length > 0) seen[index!] = { ...target, photo: rest.shift()! };
  for (const photo of rest) seen.push({ how: PHOTO, note: '', reading: '', photo });
  return edit(finding, seen, photos.length === 1 ? 'new photo' : `${photos.length} new photos`);
}

/** The photo goes; an evidence that was nothing but a photo goes with it. */
export function removePhoto(finding: Finding, index: number): PaneEdit {
  const { alt: _, forCustomer: __, ...left } = finding.seen[index]!;
  const bare = left.how === PHOTO && left.note === '' && left.reading === '';
  const seen = bare ? finding.seen.toSpliced(index, 1) : finding.seen.with(index, { ...left, photo: '' });
  return edit(finding, seen, 'removal of a photo');
}

/** Whether the customer may see a photo; saying yes needs no key. */
export function chooseForCustomer(finding: Finding, index: number, chosen: boolean): PaneEdit {
  return change(finding, index, chosen ? 'photo for the customer' : 'photo not for the customer', ({ forCustomer: _, ...evidence }) =>
    chosen ? evidence : { ...evidence, forCustomer: false },
  );
}

/** What a screen reader says of a photo: its own words, else how it came about and of what. */
export function photoText(evidence: Evidence, name: string): string {
  return evidence.alt ?? `Photo${evidence.how === '' || evidence.how === PHOTO ? '' : `, ${evidence.how}`}: ${name}`;
}

function change(finding: Finding, index: number, what: string, make: (evidence: Evidence) => Evidence): PaneEdit {
  return edit(finding, finding.seen.with(index, make(finding.seen[index]!)), what);
}

function edit(finding: Finding, seen: Evidence[], what: string): PaneEdit {
  const command: Command = { do: 'put', list: 'findings', entry: { ...finding, seen } };
  return { commands: [command], what };
}
