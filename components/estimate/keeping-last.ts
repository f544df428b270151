/** Which estimate was open last in this browser, and which one the page's address names. */

const LAST = 'baysheet-last-estimate';
const IN_HASH = /^#estimate=([A-Za-z0-9._-]{1,64})$/;

export function lastOpen(): string | null {
  try {
    return localStorage.getItem(LAST);
  } catch {
    // Denied: nothing is kept in this browser either.
    return null;
  }
}

export function rememberOpen(id: string): void {
  try {
    localStorage.setItem(LAST, id);
  } catch {
    // Then the one that was saved last is opened after a reload.
  }
}

/** The estimate that the address names: `#estimate=ID`. */
export function openInHash(): string | null {
  return IN_HASH.exec(location.hash)?.[1] ?? null;
}

/** Names it in the address, unless something else stands there. */
export function writeHash(id: string): void {
  if (location.hash !== '' && openInHash() === null) return;
  if (openInHash() !== id) history.replaceState(history.state, '', `#estimate=${id}`);
}
