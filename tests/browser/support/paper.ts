import { spawnSync } from 'node:child_process';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { expect } from 'vitest';
import type { SheetPage } from './sheet-page.js';

const output = join(import.meta.dirname, '../../../test-output');
export const hasPdfToText = spawnSync('pdftotext', ['-v']).error === undefined;

/** No amount with cents, no sign or name of a currency. */
export const MONEY = /\d\.\d\d\b|\$|USD/;

/** The texts of what is printed, in the order in which they stand. */
export async function printed(sheet: SheetPage, inside = ''): Promise<string> {
  await sheet.page.emulateMedia({ media: 'print' });
  const text = await sheet.element.locator(`.print ${inside}`).innerText();
  await sheet.page.emulateMedia({ media: null });
  return text;
}

/** The pages of the document as it would come out of the printer, as text; a PDF is left for people to look at. */
export async function pages(sheet: SheetPage, name: string, format: 'A4' | 'Letter'): Promise<string[]> {
  await mkdir(output, { recursive: true });
  const path = join(output, `${name}-${format}.pdf`);
  await sheet.page.pdf({ path, format, margin: { top: '12mm', bottom: '12mm', left: '14mm', right: '14mm' } });
  if (!hasPdfToText) return [];
  const { stdout } = spawnSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
  return stdout.split('\f').slice(0, -1);
}

/** That the words stand in the text, one after the other. */
export function expectInOrder(text: string, words: readonly string[]): void {
  let from = 0;
  for (const word of words) {
    const at = text.indexOf(word, from);
    expect(at, `“${word}” after “${text.slice(Math.max(0, from - 60), from)}”`).toBeGreaterThanOrEqual(0);
    from = at + word.length;
  }
}
