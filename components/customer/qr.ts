import { encode } from 'uqr';

/** More than so many characters make a code that phones cannot read from a screen of this size. */
const LONGEST = 1000;

/** The dark squares of a QR code (ISO/IEC 18004) as one path, in squares, with the quiet zone of four around; null for a text that is too long. */
export function qrPath(text: string): { path: string; size: number } | null {
  if (text.length > LONGEST) return null;
  const { data, size } = encode(text, { ecc: 'L', border: 4 });
  const path = data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : []))).join('');
  return { path, size };
}
