import type { Estimate, Finding } from '../documents/estimate.js';

/** A trouble code of the vehicle, with the findings that explain it. */
export interface ExplainedCode {
  readonly code: string;
  readonly note: string;
  readonly findings: readonly Finding[];
  /** Whether the estimate lists it; else only a finding names it. */
  readonly listed: boolean;
}

/** All trouble codes: those that the estimate lists, in its order, then those that only findings name. */
export function explainedCodes({ codes = [], findings }: Pick<Estimate, 'codes' | 'findings'>): ExplainedCode[] {
  const notes = new Map(codes.map(({ code, note }) => [code, note]));
  const named = findings.flatMap((finding) => finding.codes ?? []);
  return [...new Set([...notes.keys(), ...named])].map((code) => ({
    code,
    note: notes.get(code) ?? '',
    findings: findings.filter((finding) => finding.codes?.includes(code)),
    listed: notes.has(code),
  }));
}

const SYSTEMS: Readonly<Record<string, string>> = { P: 'powertrain', C: 'chassis', B: 'body', U: 'network' };

/**
 * Which system a code is of, and who says what it means (SAE J2012): after the letter, 0 stands for a code of the
 * standard and 1 for one of the maker. For 2 and 3 it depends on the system, so nothing is said.
 */
export function codeSystem(code: string): string {
  const system = SYSTEMS[code[0]!] ?? '';
  const by = code[1] === '0' ? 'set by the standard' : code[1] === '1' ? 'set by the maker' : '';
  return [system, by].filter((words) => words !== '').join(', ');
}
