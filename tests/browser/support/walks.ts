import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import type { Locator, Page } from 'playwright-core';

/** Is told every state that a walk reaches, while the page is in it. */
export type At = (state: string) => Promise<void>;

const demo = join(import.meta.dirname, '../../../demo');
const file = (name: string, text: string | Buffer, mimeType = 'application/json') => ({ name, mimeType, buffer: Buffer.from(text) });
const demoFile = (name: string) => file(name, readFileSync(join(demo, name)));
/** One pixel. */
const PICTURE = file(
  'leak.png',
  Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==', 'base64'),
  'image/png',
);
const HOSE = 'Replace a heater hose';

class Walker {
  constructor(
    readonly page: Page,
    readonly at: At,
  ) {}

  button(name: string | RegExp, within: Page | Locator = this.page): Locator {
    return within.getByRole('button', { name, exact: typeof name === 'string' });
  }

  /** A cell by its grid, the words of the row's first cell, and the number of its column, counted from 1. */
  cell(grid: string, words: string, column: number): Locator {
    const first = this.page.locator(`[aria-colindex="1"]:text-is(${JSON.stringify(words)})`);
    return this.page
      .getByRole('grid', { name: grid, exact: true })
      .locator('tbody tr[role=row]')
      .filter({ has: first })
      .first()
      .locator(`[aria-colindex="${column}"]`);
  }

  async press(...keys: string[]): Promise<void> {
    for (const key of keys) await this.page.keyboard.press(key);
  }

  async paste(text: string): Promise<void> {
    await this.page.evaluate((value) => navigator.clipboard.writeText(value), text);
    await this.press('Control+v');
  }

  /** Opens a dialog, does what is to be done there, and closes it. */
  async dialog(open: Locator, state: string, inside: (dialog: Locator) => Promise<void> = async () => {}, close = 'Escape'): Promise<void> {
    await open.click();
    const dialog = this.page.getByRole('dialog').last();
    await dialog.waitFor();
    await inside(dialog);
    await this.at(state);
    await (close === 'Escape' ? this.press('Escape') : this.button(close, dialog).click());
    await dialog.waitFor({ state: 'hidden' });
  }

  async download(button: Locator): Promise<void> {
    await Promise.all([this.page.waitForEvent('download'), button.click()]);
  }

  /** The cells of a grid in every way that they are used with: a field, a list, a menu, an entry that is refused, a block. */
  async grid(name: string, row: string, { figure, choice, menu }: { figure: number; choice: number; menu: string }): Promise<void> {
    const { page } = this;
    await this.cell(name, row, figure).dblclick();
    await this.at(`${name}: editing`);
    await this.press('Escape');
    await this.cell(name, row, choice).dblclick();
    await page.getByRole('listbox').waitFor();
    await this.at(`${name}: list open`);
    await this.press('Escape', 'Escape');
    await this.cell(name, row, figure).click({ button: 'right' });
    await page.getByRole('menu').waitFor();
    await this.press('ArrowDown');
    await this.at(`${name}: menu open`);
    await page.getByRole('menuitem', { name: menu }).click();
    await page.getByRole('menu').waitFor({ state: 'detached' });
    await this.cell(name, row, figure).click();
    await page.keyboard.type('nonsense');
    await this.press('Enter', 'ArrowUp');
    await page.getByRole('tooltip').waitFor();
    await this.at(`${name}: an entry refused`);
    await this.press('Escape', 'Control+z');
    await this.press('Shift+ArrowRight', 'Control+c');
  }
}

/** Everything that an advisor does on the sheet of the demonstration, from the van as it lies in the folder. */
export async function walkSheet(page: Page, at: At): Promise<void> {
  const walk = new Walker(page, at);
  const sheet = page.locator('baysheet-estimate');
  await page.getByRole('grid', { name: 'Lines', exact: true }).waitFor();
  await sheet.locator('[part=later]').waitFor();
  await at('loaded');

  await walk.grid('Lines', HOSE, { figure: 4, choice: 1, menu: 'Move down' });
  await walk.grid('Findings', 'Radiator hose', { figure: 6, choice: 1, menu: 'Move down' });
  await walk.button('Add line').click();
  await walk.paste('part\tClamp\nnote\tAsk about the horn');
  await page.getByText('Ask about the horn').first().waitFor();
  await at('rows pasted');

  await page.getByText('Test rounds', { exact: true }).first().scrollIntoViewIfNeeded();
  await sheet.locator('baysheet-rounds summary').first().click();
  await sheet.locator('baysheet-job summary').click();
  await sheet.getByText('As a table').first().click();
  await walk.cell('Findings', 'Heater hose', 1).click();
  await sheet.locator('baysheet-evidence summary').click();
  await sheet.locator('baysheet-evidence input[type=file]').first().setInputFiles(PICTURE);
  await sheet.locator('baysheet-evidence img').first().waitFor();
  await sheet.locator('baysheet-evidence .thumb').first().click();
  await sheet
    .locator('baysheet-evidence input[type=file]')
    .first()
    .setInputFiles(file('letter.txt', 'no picture', 'text/plain'));
  await sheet.locator('baysheet-evidence [role=alert]').first().waitFor();
  await sheet.locator('baysheet-codes summary').click();
  await sheet.getByLabel('Add a trouble code').fill('P0128');
  await walk.press('Enter');
  await sheet.getByLabel('Note on P0128').waitFor();
  await sheet.getByLabel('Add a trouble code').fill('X1');
  await walk.press('Enter');
  await at('every pane open');

  await walk.dialog(
    walk.button('Parts run'),
    'parts run',
    async (dialog) => {
      await walk
        .button('Copy as text', dialog)
        .click()
        .catch(() => {});
    },
    'Done',
  );
  for (const paper of ['Work sheet', 'Write-up']) {
    await walk.dialog(
      walk.button(paper),
      paper.toLowerCase(),
      async (dialog) => {
        const begin = walk.button('Begin the empty texts from the findings', dialog);
        if ((await begin.count()) > 0) await begin.click();
        await walk.button('Print', dialog).click();
      },
      'Done',
    );
  }
  const table = walk.button('Table …');
  if ((await table.count()) > 0) {
    await walk.dialog(table, 'lines as a table', async (dialog) => walk.download(walk.button(/^Save .* as CSV$/, dialog)));
  }
  const estimates = walk.button('Estimates …');
  if ((await estimates.count()) > 0) await walk.dialog(estimates, 'estimates kept');
  await walk.dialog(
    walk.button('Share …'),
    'shared',
    async (dialog) => {
      const anyway = walk.button('Share all the same', dialog);
      const link = dialog.getByLabel(/^Link, \d+ characters$/);
      await anyway.or(link).first().waitFor();
      if ((await anyway.count()) > 0) {
        await at('shared before the findings are complete');
        await anyway.click();
      }
      await link.waitFor();
      await walk.button('Copy the link', dialog).click();
      await dialog.getByText('The shop’s public key').click();
      await walk.download(walk.button('Save as a file …', dialog));
    },
    'Done',
  );
  await walk.dialog(walk.button('Record a consent …'), 'consent, with faults', (dialog) => walk.button('Record', dialog).click());
  await walk.button('Record a consent …').click();
  await page.getByLabel('Given by').fill('Orla Finchley-Dane');
  await page.getByLabel('Taken by').fill('Bo Made-Up');
  await walk.button('Record').click();
  await page.getByRole('dialog').waitFor({ state: 'hidden' });
  await walk.dialog(walk.button('Open a reply …'), 'a reply that is none', async (dialog) => {
    await dialog.getByLabel(/^Paste the message or link/).fill('not a reply');
    await walk.button('Open', dialog).click();
    await dialog.getByRole('alert').first().waitFor();
  });

  // The shop's card changes: what was quoted stays, and can be priced again.
  await sheet.evaluate((element) => {
    const it = element as HTMLElementTagNameMap['baysheet-estimate'];
    const { rates } = it;
    const labourClasses = rates!.labourClasses.map((each) => ({ ...each, rate: '171.00' }));
    Object.assign(it, { rates: { ...rates, effectiveFrom: '2026-05-01', cashStep: '0.05', labourClasses } });
  });
  await walk.dialog(walk.button(/^Price again under/), 'price again', async () => {}, 'Price again');
  await at('priced again');

  await walk.download(walk.button('Save'));
  await sheet.locator('.tools input[type=file]').setInputFiles(file('cut.json', '{ "format": "baysheet-estimate", '));
  await sheet.getByRole('alert').filter({ hasText: 'JSON' }).first().waitFor();
  await at('a file that cannot be read');
  await sheet.evaluate((element) => {
    const it = element as HTMLElementTagNameMap['baysheet-estimate'];
    const { estimate } = it;
    Object.assign(it, {
      estimate: {
        ...estimate,
        lines: [{ id: 'x', kind: 'operation', operation: 'nothing-known', positions: [], findings: [] }, ...estimate!.lines],
      },
    });
  });
  await page
    .getByRole('button', { name: /nothing-known/ })
    .first()
    .waitFor();
  await at('not complete');
  await walk.button('Print').click();
  await page.emulateMedia({ media: 'print' });
  await sheet.locator('[part=print]').waitFor();
  await at('on paper');
  await page.emulateMedia({ media: 'screen' });
}

/** Everything that an owner does on the desk of the demonstration, from the card with cliffs. */
export async function walkRates(page: Page, at: At): Promise<void> {
  const walk = new Walker(page, at);
  const desk = page.locator('baysheet-rates');
  const tab = (name: string | RegExp): Locator => desk.getByRole('tab', { name });
  await page.getByRole('grid', { name: 'Taxes', exact: true }).waitFor();
  await at('card');
  await walk.grid('Taxes', await firstCell(page, 'Taxes'), { figure: 2, choice: 3, menu: 'Insert a tax above' });
  await walk.press('Control+z');
  for (const name of ['Taxes of a place …', 'Rule of a place …']) {
    await walk.dialog(
      walk.button(name),
      name,
      async (dialog) => void (await dialog.getByRole('combobox').first().selectOption({ index: 1 })),
    );
  }
  await desk.locator('.tools input[type=file]').first().setInputFiles(file('cut.json', '{'));
  await desk.getByRole('alert').first().waitFor();
  await at('a card that cannot be read');
  await walk.cell('Labour classes', await firstCell(page, 'Labour classes'), 2).click();
  await page.keyboard.type('133');
  await walk.press('Enter');
  await walk.dialog(walk.button('Save a new version …'), 'saving', async (dialog) => {
    await dialog.getByLabel('In force from').first().fill('2026-02-01');
  });
  await walk.button('Save a new version …').click();
  await desk.getByLabel('In force from').first().fill('2026-02-01');
  await walk.button('Save version').click();
  await page.getByRole('dialog').waitFor({ state: 'hidden' });

  await tab('Versions').click();
  await walk
    .button(/^Work on it/)
    .first()
    .waitFor();
  await walk.download(walk.button(/^As a file/).first());
  await at('versions');

  await tab('Catalogue').click();
  await tab(/^Steps \d+/).click();
  await page.getByRole('grid', { name: 'Steps', exact: true }).waitFor();
  await at('catalogue');
  const step = await firstCell(page, 'Steps');
  await walk.cell('Steps', step, 1).click({ button: 'right' });
  await page.getByRole('menuitem', { name: /^Remove/ }).click();
  await page.getByRole('dialog').waitFor();
  await at('a step that is in use');
  await walk.press('Escape');
  await desk
    .locator('baysheet-catalogue-desk')
    .getByText('As a table')
    .first()
    .click()
    .catch(() => {});
  await walk.dialog(walk.button('Take in a table …'), 'a table', async (dialog) => {
    await dialog
      .locator('input[type=file]')
      .setInputFiles(file('hours.csv', 'Op code;Description;Hrs\r\nlamp;Renew the lamp;0,4\r\nlamp;Again;x\r\n', 'text/csv'));
    await dialog.getByText('rows with').waitFor();
  });
  await walk.download(walk.button('Operations as CSV'));

  await tab('What if').click();
  await desk
    .locator('#files')
    .setInputFiles([demoFile('van.estimate.json'), demoFile('plenum.estimate.json'), demoFile('brakes.estimate.json')]);
  const status = (words: RegExp): Locator => page.getByRole('status').filter({ hasText: words });
  await status(/3 files loaded/).waitFor();
  await at('past estimates loaded');
  await tab('Rate card').click();
  await walk.cell('Labour classes', await firstCell(page, 'Labour classes'), 2).click();
  await page.keyboard.type('139');
  await walk.press('Enter');
  await tab('What if').click();
  const worker = page.waitForEvent('worker');
  await walk.button(/^Replay/).click();
  await status(/replayed/).waitFor();
  await worker;
  await page.getByText('The same as a table').first().click();
  await at('replayed');
  await walk.dialog(walk.button(/^Look at estimate/).first(), 'one estimate that moves', (dialog) =>
    walk.download(walk.button('Open the estimate', dialog)),
  );
  await page.getByLabel(/^Target/).fill('140');
  await walk.button('Seek').click();
  await status(/answer/).waitFor();
  await at('a goal');
  await desk
    .locator('baysheet-time input[type=file]')
    .setInputFiles(file('clocked.csv', 'operation,hours,estimate\nradiator,3.0,\nno-such,1,\n', 'text/csv'));
  await status(/clocked.csv read/).waitFor();
  await at('clocked hours');
  await walk.button('Print').click();
  await page.emulateMedia({ media: 'print' });
  await page.emulateMedia({ media: 'screen' });
}

/** Everything that a customer does with an estimate, to the answer that is on its way. */
export async function walkCustomer(page: Page, at: At): Promise<void> {
  const walk = new Walker(page, at);
  const customer = page.locator('baysheet-customer');
  await customer.locator('.line').first().waitFor();
  await at('to read');
  await walk.button('Español').click();
  await customer.getByText('Lo que encontramos').waitFor();
  await walk.button('English').click();
  await customer.locator('#ceiling').fill('700');
  await customer.locator('.budget form button').click();
  await customer.locator('.budget .buttons button').first().waitFor();
  await at('a budget');
  await customer.locator('.bar button').click();
  await at('not all answered');
  await customer.locator('.answer label').filter({ hasText: 'No' }).first().click();
  await walk.button('Yes to all that is open').click();
  await at('all answered');
  await walk.button('Review').click();
  await customer.locator('.confirm').waitFor();
  await walk.button('Confirm and answer').click();
  await at('to confirm, with faults');
  await page.getByLabel('Your name').fill('Orla Finchley-Dane');
  await page.getByLabel('Phone', { exact: true }).fill('+1 303 555 0142');
  await page.getByRole('checkbox').check();
  await walk.button('Confirm and answer').click();
  await customer.locator('.done').waitFor();
  for (const button of await customer
    .locator('.done button')
    .filter({ hasText: /Copy|QR/ })
    .all())
    await button.click();
  await at('answered');
  await page.emulateMedia({ media: 'print' });
  await page.emulateMedia({ media: 'screen' });
  // More may be found; then a link that is none.
  await customer.evaluate((element) => {
    const it = element as HTMLElementTagNameMap['baysheet-customer'];
    const { copy } = it;
    Object.assign(it, { copy: { ...copy, estimate: { ...copy!.estimate, rounds: [{ n: 1, method: '', clean: false, note: '' }] } } });
  });
  await customer.locator('[part~=more]').first().waitFor();
  await at('more may be found');
  await customer.evaluate((element) => Object.assign(element, { copy: null, token: 'not.a.link' }));
  await customer.locator('.refused').waitFor();
  await at('refused');
}

async function firstCell(page: Page, grid: string): Promise<string> {
  const cell = page.getByRole('grid', { name: grid, exact: true }).locator('tbody [aria-colindex="1"]').first();
  await expect.poll(() => cell.innerText()).not.toBe('');
  return cell.innerText();
}
