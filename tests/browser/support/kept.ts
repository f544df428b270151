import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** The words about the saving among the tools. */
export function saving(page: Page): Promise<string> {
  return page.locator('.saving').innerText();
}

export async function saved(page: Page): Promise<void> {
  await expect.poll(() => saving(page)).toMatch(/^Saved in this browser \d?\d:\d\d/);
}

/** The text that is kept of an estimate, read beside the sheet; null where none is. */
export function keptText(page: Page, id: string): Promise<string | null> {
  return page.evaluate(
    (wanted) =>
      new Promise<string | null>((resolve, reject) => {
        const request = indexedDB.open('baysheet');
        request.onerror = () => reject(request.error!);
        request.onsuccess = () => {
          const db = request.result;
          const get = db.transaction('texts').objectStore('texts').get(['estimate', wanted]);
          get.onsuccess = () => {
            db.close();
            resolve((get.result as string | undefined) ?? null);
          };
        };
      }),
    id,
  );
}

export async function kept(page: Page, id: string): Promise<Record<string, unknown> | null> {
  return JSON.parse((await keptText(page, id)) ?? 'null') as Record<string, unknown> | null;
}

/** Puts a text beside the sheet, as another program would that tells nobody; null removes. `entry` goes over what is listed of it. */
export async function putBeside(page: Page, id: string, text: string | null, entry: object = {}): Promise<void> {
  await page.evaluate(
    ([wanted, put, more]) =>
      new Promise<void>((resolve, reject) => {
        const request = indexedDB.open('baysheet');
        request.onerror = () => reject(request.error!);
        request.onsuccess = () => {
          const db = request.result;
          const transaction = db.transaction(['entries', 'texts'], 'readwrite');
          const [entries, texts] = [transaction.objectStore('entries'), transaction.objectStore('texts')];
          if (put === null) {
            entries.delete(['estimate', wanted]);
            texts.delete(['estimate', wanted]);
          } else {
            entries.put(
              { revision: `beside-${Math.random()}`, about: 'put beside', savedAt: new Date().toISOString(), length: put.length, ...more },
              ['estimate', wanted],
            );
            texts.put(put, ['estimate', wanted]);
          }
          transaction.oncomplete = () => {
            db.close();
            resolve();
          };
          transaction.onerror = () => reject(transaction.error!);
        };
      }),
    [id, text, entry] as const,
  );
}
