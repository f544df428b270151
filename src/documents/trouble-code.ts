/**
 * The form of a trouble code by SAE J2012 (ISO 15031-6): the system (powertrain, chassis, body, network), a digit from 0
 * to 3, three hexadecimal digits, and where there is one the failure type byte after a hyphen (`U0100-87`).
 */
export const TROUBLE_CODE = /^[PCBU][0-3][0-9A-F]{3}(-[0-9A-F]{2})?$/;

/** A trouble code that was read, or why it is none, in words that end with how to mend it. */
export type ReadCode = { readonly ok: true; readonly code: string } | { readonly ok: false; readonly reason: string };

/** A trouble code as a person types it: in either case, the failure type after a hyphen, a colon, a space or nothing. */
export function readTroubleCode(typed: string): ReadCode {
  const text = typed.trim().toUpperCase();
  const [, five = '', failure = ''] = /^(\w{5})[-: ]?(\w{2})?$/.exec(text) ?? [];
  const code = failure === '' ? five : `${five}-${failure}`;
  return TROUBLE_CODE.test(code) ? { ok: true, code } : { ok: false, reason: whyNot(text) };
}

function whyNot(text: string): string {
  const say = (reason: string): string => `"${text.length > 20 ? `${text.slice(0, 20)}…` : text}" is no trouble code: ${reason}`;
  const like = 'Write it like P0171, or with the failure type like U0100-87.';
  if (!/^[PCBU]/.test(text)) return say(`it begins with P, C, B or U. ${like}`);
  if (!/^.[0-3]/.test(text)) return say(`the letter is followed by a digit from 0 to 3. ${like}`);
  if (/O/.test(text)) return say(`it holds the letter O where only a zero can stand. ${like}`);
  return say(`after the first digit come three digits or letters from A to F. ${like}`);
}
