/** Why something failed, as it says itself. */
export function wordsOf(fault: unknown): string {
  return fault instanceof Error ? fault.message : String(fault);
}
