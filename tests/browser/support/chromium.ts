import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium } from 'playwright-core';
import type { Browser } from 'playwright-core';

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];

/**
 * Where a Chromium is: `CHROMIUM_PATH` first, else the first usual name on the search path. Throws, with what
 * to do about it, where there is none.
 */
export function chromiumPath(): string {
  const told = process.env['CHROMIUM_PATH'];
  if (told) {
    if (!canRun(told)) throw new Error(`CHROMIUM_PATH names ${told}, which cannot be run. Mend or unset it.`);
    return told;
  }
  const folders = ['/usr/bin', ...(process.env['PATH'] ?? '').split(delimiter)];
  for (const name of names) {
    const found = folders.map((folder) => join(folder, name)).find(canRun);
    if (found) return found;
  }
  throw new Error(
    `No Chromium found (looked for ${names.join(', ')}). Install one, on Debian with "apt-get install chromium", ` +
      'or set CHROMIUM_PATH to one that is there.',
  );
}

/** With these it asks nothing of the network. */
export const CHROMIUM_ARGUMENTS: readonly string[] = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** A headless Chromium that asks nothing of the network. The caller closes it. */
export function launchChromium(extraArguments: readonly string[] = []): Promise<Browser> {
  return chromium.launch({ executablePath: chromiumPath(), args: [...CHROMIUM_ARGUMENTS, ...extraArguments] });
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
