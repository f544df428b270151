import type { Estimate, Finding } from '../../src/documents/estimate.js';
import { readTroubleCode } from '../../src/documents/trouble-code.js';
import type { Command } from '../../src/store/commands.js';
import type { PaneEdit } from './pane-edit.js';

/** What an entry comes to: an edit, or why it cannot be used. */
export type CodeOutcome = { readonly edit: PaneEdit } | { readonly reason: string };

/** Trouble codes as they were read from the vehicle, with spaces, commas or semicolons between them. */
export function addCodes({ codes = [] }: Estimate, text: string): CodeOutcome {
  const read = readCodes(text);
  if ('reason' in read) return read;
  const known = new Set(codes.map(({ code }) => code));
  const more = read.codes.filter((code) => !known.has(code)).map((code) => ({ code, note: '' }));
  return { edit: { commands: [{ do: 'set-codes', codes: [...codes, ...more] }], what: 'trouble codes' } };
}

export function noteCode({ codes = [] }: Estimate, code: string, note: string): PaneEdit {
  const known = codes.some((entry) => entry.code === code);
  const noted = known
    ? codes.map((entry) => (entry.code === code ? { ...entry, note: note.trim() } : entry))
    : [...codes, { code, note: note.trim() }];
  return { commands: [{ do: 'set-codes', codes: noted }], what: `note on ${code}` };
}

/** A code goes from the list and from all findings. */
export function removeCode({ codes = [], findings }: Estimate, code: string): PaneEdit {
  const named = findings.filter((finding) => finding.codes?.includes(code));
  return {
    commands: [
      { do: 'set-codes', codes: codes.filter((entry) => entry.code !== code) },
      ...named.map((finding) => explained(finding, without(finding, code))),
    ],
    what: `removal of ${code}`,
  };
}

/** That a finding explains a code, or no longer does. */
export function explain(finding: Finding, code: string, explains: boolean): PaneEdit {
  const others = without(finding, code);
  return { commands: [explained(finding, explains ? [...others, code] : others)], what: `explanation of ${code}` };
}

/** All codes that a finding explains, as one text; codes that the estimate does not list yet are listed. */
export function explainAll(estimate: Estimate, finding: Finding, text: string): CodeOutcome {
  const read = readCodes(text);
  if ('reason' in read) return read;
  const listed = addCodes(estimate, text) as { edit: PaneEdit };
  return { edit: { commands: [...listed.edit.commands, explained(finding, read.codes)], what: 'explained codes' } };
}

function readCodes(text: string): { readonly codes: string[] } | { readonly reason: string } {
  const codes: string[] = [];
  for (const word of text.split(/[\s,;]+/).filter((part) => part !== '')) {
    const read = readTroubleCode(word);
    if (!read.ok) return read;
    if (!codes.includes(read.code)) codes.push(read.code);
  }
  return { codes };
}

function without(finding: Finding, code: string): string[] {
  return (finding.codes ?? []).filter((other) => other !== code);
}

function explained(finding: Finding, codes: readonly string[]): Command {
  const { codes: _, ...entry } = finding;
  return { do: 'put', list: 'findings', entry: codes.length === 0 ? entry : { ...entry, codes: [...codes] } };
}
