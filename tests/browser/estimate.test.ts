import { afterEach, describe, expect, test } from 'vitest';
import { useEstimateSite } from './support/estimate-site.js';
import { demoEstimate, SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();
let sheet: SheetPage;

afterEach(() => sheet.done());

describe('the whole job by keyboard alone', () => {
  test('from plain words to a priced estimate, and all the way back', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('empty'));
    await sheet.listen();
    const atFirst = await sheet.estimate();
    expect(await sheet.total()).toBe('0.00');

    // What was found.
    await sheet.tabTo('button Add finding');
    await sheet.press('Enter');
    expect(await sheet.active()).toMatchObject({ grid: 'Findings', row: 'Type what was found', column: 'Component' });
    await sheet.type('heater hose seep');
    expect(await sheet.list().getByRole('option').allInnerTexts()).toEqual([
      'Heater hose · seeps at the joint',
      'Heater hose · feed · seeps at the joint',
      'Heater hose · return · seeps at the joint',
    ]);
    await sheet.press('ArrowDown', 'Enter');
    expect(await sheet.active()).toMatchObject({ row: 'Next finding', column: 'Component' });
    await sheet.enter('pump weep');
    await sheet.enter('radiator hose split');
    await sheet.enterAt('Radiator hose', 'Position', 'low', 'Tab');
    expect(await sheet.active()).toMatchObject({ row: 'Radiator hose', column: 'Fault' });
    await sheet.enterAt('Radiator hose', 'Seen by', 'dye', 'Tab');
    await sheet.enter('now', 'Tab');
    await sheet.enter('2', 'Tab');
    expect(await sheet.rows('Findings')).toMatchObject([
      { Component: 'Heater hose', Position: 'feed', Fault: 'seeps at the joint', Urgency: 'soon', Round: '1' },
      { Component: 'Water pump', Fault: 'weeps from the vent hole', Round: '1', 'Put right by': 'Replace the water pump' },
      { Component: 'Radiator hose', Position: 'lower', Fault: 'split along the seam', 'Seen by': 'dye trace', Urgency: 'now', Round: '2' },
      { Component: 'Next finding' },
    ]);
    const found = await sheet.estimate();
    expect(found.lines.map((line) => line.kind === 'operation' && [line.operation, line.positions])).toEqual([
      ['heater-hose-one', ['feed']],
      ['water-pump', []],
      ['radiator-hose', ['lower']],
    ]);

    // What it takes: hours by a sum, a price, a decision.
    await sheet.tabTo('grid Lines');
    await sheet.enterAt('Replace the water pump', 'Book h', '=3.2+0.3');
    expect(await sheet.cell('Lines', 'Replace the water pump', 'Book h').innerText()).toBe('3.5');
    await sheet.enterAt('Water pump', 'Unit price', '=2*70+9.99');
    await sheet.enterAt('Replace a radiator hose', 'Decision', 'dec');
    expect(await sheet.cell('Lines', 'Replace a radiator hose', 'Decision').innerText()).toBe('declined');

    // Lines of one's own, in the spare row.
    await sheet.goTo('Next line', 'Work');
    await sheet.enter('Look for the rattle', 'Tab');
    await sheet.enter('lab', 'Tab');
    await sheet.press('Tab');
    await sheet.enter('=1.2+0.3');
    await sheet.goTo('Next line', 'Work');
    await sheet.enter('Hose clip, loose', 'Tab');
    await sheet.enter('new part', 'Tab');
    await sheet.enterAt('Hose clip, loose', 'Quantity', '2', 'Tab');
    await sheet.enter('1.85', 'Tab');
    await sheet.enterAt('Next line', 'Work', 'Radiator flushed elsewhere', 'Tab');
    await sheet.enter('sublet', 'Tab');
    await sheet.enterAt('Radiator flushed elsewhere', 'Cost', '80', 'Tab');
    await sheet.enterAt('Next line', 'Work', 'Key left at the gate', 'Tab');
    await sheet.enter('fee', 'Tab');
    await sheet.enterAt('Key left at the gate', 'Unit price', '12');
    await sheet.enterAt('Next line', 'Work', 'The customer waits.', 'Tab');
    await sheet.goTo('Next line', 'Kind');
    await sheet.enter('disc', 'Tab');
    await sheet.enterAt('Discount', 'Work', 'First visit', 'Tab');
    await sheet.enterAt('First visit', 'Quantity', '10');

    const rows = await sheet.rows('Lines');
    const row = (work: string) => rows.find((it) => it['Work'] === work);
    // 1.5 h at 150.00; 2 at 3.70 (cost 1.85 plus 100 %); 80.00 plus 20 %.
    expect(row('Look for the rattle')).toMatchObject({ Kind: 'labour', 'Book h': '1.5', Amount: '225.00' });
    expect(row('Hose clip, loose')).toMatchObject({ Kind: 'new part', 'Unit price': '3.70', Amount: '7.40' });
    expect(row('Radiator flushed elsewhere')).toMatchObject({ Kind: 'sublet', Amount: '96.00' });
    expect(row('Key left at the gate')).toMatchObject({ Kind: 'fee', Amount: '12.00' });
    expect(row('The customer waits.')).toMatchObject({ Kind: 'note' });
    expect(row('First visit')).toMatchObject({ Kind: 'discount', Quantity: '10 %' });
    expect(row('Water pump')).toMatchObject({ 'Unit price': '149.99' });
    const priced = await sheet.expectTotalOfEngine();
    expect(priced.complete).toBe(true);
    expect(Number(priced.totals.total)).toBeGreaterThan(900);
    expect(await sheet.figure('Discount')).toBe(`-${priced.totals.discount}`);

    // One history for both grids: all the way back, and all the way forth.
    const atLast = await sheet.estimate();
    const steps = (await sheet.heard()).length;
    expect(steps).toBeGreaterThan(25);
    await sheet.press(...Array<string>(steps).fill('Control+z'));
    expect(await sheet.estimate()).toEqual(atFirst);
    expect(await sheet.total()).toBe('0.00');
    expect(await sheet.button('Undo').isDisabled()).toBe(true);
    await sheet.press(...Array<string>(steps).fill('Control+y'));
    expect(await sheet.estimate()).toEqual(atLast);
    expect(await sheet.button('Redo').isDisabled()).toBe(true);
    await sheet.expectTotalOfEngine();
  });

  test('every finding belongs to a round of the estimate', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('empty'));
    await sheet.tabTo('button Add finding');
    await sheet.press('Enter');
    await sheet.enter('pump weep');
    expect((await sheet.estimate()).rounds.map(({ n }) => n)).toEqual([1]);
    await sheet.enter('radiator hose split');
    await sheet.enterAt('Radiator hose', 'Round', '3');
    const { rounds, findings } = await sheet.estimate();
    expect(findings.map(({ round }) => round)).toEqual([1, 3]);
    expect(rounds.map(({ n }) => n)).toEqual(expect.arrayContaining([1, 3]));
  });

  test('Undo in one grid takes back what was done in the other', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
    await sheet.tabTo('grid Findings');
    await sheet.enterAt('Upper plenum', 'Urgency', 'watch');
    await sheet.tabTo('grid Lines');
    await sheet.enterAt('Replace the upper plenum gasket', 'Decision', 'app');
    const changed = await sheet.estimate();
    await sheet.press('Control+z', 'Control+z');
    expect((await sheet.estimate()).findings.map(({ urgency }) => urgency)).toEqual(['now', 'unsafe']);
    await sheet.tabTo('grid Findings', 'Shift+Tab');
    await sheet.press('Control+y', 'Control+Shift+Z');
    expect(await sheet.estimate()).toEqual(changed);
  });
});

describe('the same by mouse', () => {
  test('click, double-click, type-ahead list, row menu and buttons', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('empty'));
    const { page } = sheet;
    await sheet.button('Add finding').click();
    await sheet.type('heater hose seep');
    await sheet.list().getByRole('option', { name: 'Heater hose · return · seeps at the joint' }).click();
    await sheet.cell('Findings', 'Next finding', 'Component').dblclick();
    await sheet.type('pump weep');
    await sheet.list().getByRole('option').first().click();
    await sheet.cell('Findings', 'Heater hose', 'Urgency').dblclick();
    await sheet.list().getByRole('option', { name: 'unsafe' }).click();
    expect((await sheet.estimate()).findings).toMatchObject([
      { component: 'heater-hose', position: 'return', fault: 'seeps at the joint', urgency: 'unsafe' },
      { component: 'water-pump', fault: 'weeps from the vent hole', urgency: 'soon' },
    ]);

    // A click into the open field keeps it open; a press elsewhere keeps what was typed.
    await sheet.cell('Lines', 'Replace a heater hose', 'Book h').dblclick();
    await sheet.field().fill('1.75');
    await sheet.field().click();
    await sheet.clickCell('Lines', 'Replace the water pump', 'Kind');
    expect(await sheet.cell('Lines', 'Replace a heater hose', 'Book h').innerText()).toBe('1.75');

    // The row menu, by right click and by the row's own button.
    await sheet.cell('Lines', 'Replace the water pump', 'Kind').click({ button: 'right' });
    await sheet.chooseFromMenu(/^Approve/);
    await sheet.clickCell('Lines', 'Replace a heater hose', 'Kind');
    await sheet.element.locator('#lines .sheet-row-button').click();
    await sheet.chooseFromMenu('Add extra hours');
    expect(await sheet.column('Lines', 'Work')).toContain('Seized fasteners');
    await sheet.cell('Lines', 'Heater hose joint seal', 'Kind').click({ button: 'right' });
    await sheet.chooseFromMenu('Leave the part out');
    expect(await sheet.cell('Lines', 'Heater hose joint seal', 'Quantity').innerText()).toBe('0');

    // The buttons work on the row that is selected.
    await sheet.clickCell('Lines', 'Replace the water pump', 'Work');
    await sheet.button('Move up the selected line').click();
    expect((await sheet.estimate()).lines.map(({ id }) => id)).toEqual(['l2', 'l1']);
    expect(await sheet.active()).toMatchObject({ row: 'Replace the water pump' });
    await sheet.button('Move down the selected line').click();
    await sheet.button('Remove the selected line').click();
    expect((await sheet.estimate()).lines.map(({ id }) => id)).toEqual(['l1']);
    await sheet.button('Undo').click();
    expect((await sheet.estimate()).lines.map(({ id }) => id)).toEqual(['l1', 'l2']);
    await sheet.button('Redo').click();
    await sheet.button('Propose lines for 1 finding').click();
    expect((await sheet.estimate()).lines.map((line) => line.kind === 'operation' && line.operation)).toEqual([
      'heater-hose-one',
      'water-pump',
    ]);
    expect(await page.getByRole('button', { name: /^Propose lines/ }).count()).toBe(0);
    await sheet.expectTotalOfEngine();
  });

  test('a drag selects a block, Delete clears it in one step; the fill handle repeats', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('van'));
    const { page } = sheet;
    const before = await sheet.estimate();
    await sheet.cell('Findings', 'Radiator hose', 'Fault').hover();
    await page.mouse.down();
    await sheet.cell('Findings', 'Drive belt', 'Seen by').hover();
    await page.mouse.up();
    await sheet.press('Delete');
    const cleared = await sheet.estimate();
    expect(cleared.findings.slice(0, 2).map(({ fault, seen }) => [fault, seen])).toEqual([
      ['', []],
      ['', []],
    ]);
    expect(cleared.findings.slice(2)).toEqual(before.findings.slice(2));
    await sheet.press('Control+z');
    expect(await sheet.estimate()).toEqual(before);

    await sheet.clickCell('Findings', 'Radiator hose', 'Urgency');
    await sheet.enter('watch');
    await sheet.clickCell('Findings', 'Radiator hose', 'Urgency');
    await sheet.element.locator('#findings .ht_master .wtBorder.current.corner').hover();
    await page.mouse.down();
    await sheet.cell('Findings', 'Drive belt', 'Urgency').hover();
    await sheet.cell('Findings', 'Undertray', 'Urgency').hover();
    await page.mouse.up();
    expect((await sheet.estimate()).findings.slice(0, 4).map(({ urgency }) => urgency)).toEqual(['watch', 'watch', 'watch', 'now']);
    await sheet.press('Control+z');
    expect((await sheet.estimate()).findings.slice(0, 3).map(({ urgency }) => urgency)).toEqual([
      'watch',
      ...before.findings.slice(1, 3).map(({ urgency }) => urgency),
    ]);
  });

  test('a column is dragged wider, stays so after an edit, and nothing else changes', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
    const { page } = sheet;
    const before = await sheet.estimate();
    const box = (await sheet.heading('Lines', 'Kind').boundingBox())!;
    await page.mouse.move(box.x + box.width - 3, box.y + 8);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width + 57, box.y + 8, { steps: 4 });
    await page.mouse.up();
    const width = async (): Promise<number> => Math.round((await sheet.heading('Lines', 'Kind').boundingBox())!.width);
    const wide = await width();
    expect(wide).toBeGreaterThanOrEqual(Math.round(box.width) + 50);
    expect(await sheet.estimate()).toEqual(before);
    await sheet.clickAndEnter('Lines', 'Replace the upper plenum gasket', 'Book h', '2.5');
    expect(await width()).toBe(wide);
    const below = (await sheet.cell('Lines', 'Replace the upper plenum gasket', 'Kind').boundingBox())!;
    expect(Math.abs(below.width - wide)).toBeLessThanOrEqual(1);
  });

  test('a file is opened as one step of undo, a bad one is refused in words, and saving offers a file', async () => {
    sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
    const { page } = sheet;
    await sheet.listen();
    const before = await sheet.estimate();
    const open = page.getByLabel('Open …');
    const file = (name: string, text: string) => open.setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
    await file('van.estimate.json', JSON.stringify(await demoEstimate('van')));
    await expect.poll(async () => (await sheet.estimate()).id).toBe('demo-van');
    await sheet.expectTotalOfEngine();
    await sheet.button('Undo').click();
    expect(await sheet.estimate()).toEqual(before);

    await file('broken.json', '{"format": "baysheet-estimate", "version": 1, ');
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await alert.innerText()).toMatch(/The estimate cannot be used/);
    expect(await sheet.estimate()).toEqual(before);
    expect((await sheet.heard()).map(({ type }) => type)).toContain('baysheet-problem');

    await file('van.estimate.json', JSON.stringify(await demoEstimate('van')));
    await expect.poll(async () => (await sheet.estimate()).id).toBe('demo-van');
    expect(await alert.count()).toBe(0);
    await sheet.button('Undo').click();

    const [download] = await Promise.all([page.waitForEvent('download'), sheet.button('Save').click()]);
    expect(download.suggestedFilename()).toBe('B-1044.estimate.json');
    const stream = await download.createReadStream();
    const chunks: Buffer[] = [];
    for await (const chunk of stream) chunks.push(chunk as Buffer);
    expect(JSON.parse(Buffer.concat(chunks).toString())).toEqual(before);
    // A page that saves by itself prevents the file.
    await page.evaluate(() => document.addEventListener('baysheet-save', (event) => event.preventDefault()));
    const downloads: unknown[] = [];
    page.on('download', (it) => downloads.push(it));
    await sheet.button('Save').click();
    expect((await sheet.heard()).at(-1)).toMatchObject({ type: 'baysheet-save', detail: { estimate: before } });
    expect(downloads).toEqual([]);
  });
});

test('the demo’s other estimates open as they lie in the folder', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('van'));
  const lying = await demoEstimate('van');
  expect(await sheet.estimate()).toMatchObject({ id: lying['id'], number: lying['number'], extra: lying['extra'] });
  await sheet.expectTotalOfEngine();
});
