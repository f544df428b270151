import type { Parsed, Problem } from '../../src/documents/problem.js';
import { error } from '../../src/documents/problem.js';

/** Reads a document from an address. Never throws: what goes wrong on the way is a problem like any other. */
export async function fetchDocument<T>(address: string, parse: (json: unknown) => Parsed<T>, signal: AbortSignal): Promise<Parsed<T>> {
  try {
    const response = await fetch(address, { signal, headers: { accept: 'application/json' } });
    if (!response.ok)
      return refused(`${address} cannot be read: the server answers ${response.status} ${response.statusText}.`.replace(' .', '.'));
    return parse(await response.text());
  } catch (fault) {
    const reason = fault instanceof Error ? fault.message : String(fault);
    return refused(`${address} cannot be read (${reason}).`);
  }
}

function refused(message: string): { ok: false; problems: Problem[] } {
  return { ok: false, problems: [error('unreachable', '', message, 'Check the address, and whether the page may load it.')] };
}
