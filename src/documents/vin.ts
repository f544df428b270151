/** Values of the letters by 49 CFR 565.15(c), Table III; digits count as themselves. I, O and Q are not used. */
const LETTERS: Readonly<Record<string, number>> = {
  A: 1,
  B: 2,
  C: 3,
  D: 4,
  E: 5,
  F: 6,
  G: 7,
  H: 8,
  J: 1,
  K: 2,
  L: 3,
  M: 4,
  N: 5,
  P: 7,
  R: 9,
  S: 2,
  T: 3,
  U: 4,
  V: 5,
  W: 6,
  X: 7,
  Y: 8,
  Z: 9,
};
/** Weights of the 17 positions; the check digit's own is zero. */
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

/**
 * Checks a vehicle identification number by the check digit of 49 CFR 565.15. The rule binds vehicles for the United
 * States and Canada; other makers use the ninth position as they like, so a failed check is a reason to look again,
 * not proof of a slip.
 *
 * @returns `reason` in plain words; empty when the number is right
 */
export function checkVin(vin: string): { ok: boolean; reason: string } {
  const text = typeof vin === 'string' ? vin.trim().toUpperCase() : '';
  if (text === '') return { ok: false, reason: 'There is no VIN.' };
  if (text.length !== 17) return { ok: false, reason: `A VIN has 17 characters; this one has ${text.length}.` };
  const strange = [...text].findIndex((character) => valueOf(character) === null);
  if (strange >= 0) {
    const character = text[strange]!;
    const hint = { I: ' Is it the digit 1?', O: ' Is it the digit 0?', Q: ' Is it the digit 0?' }[character] ?? '';
    return { ok: false, reason: `"${character}" at place ${strange + 1} cannot be in a VIN.${hint}` };
  }
  const rest = [...text].reduce((sum, character, i) => sum + valueOf(character)! * WEIGHTS[i]!, 0) % 11;
  const expected = rest === 10 ? 'X' : String(rest);
  if (text[8] === expected) return { ok: true, reason: '' };
  return { ok: false, reason: `The check digit (place 9) is "${text[8]}" and should be "${expected}": one character may be wrong.` };
}

function valueOf(character: string): number | null {
  return /\d/.test(character) ? Number(character) : (LETTERS[character] ?? null);
}
