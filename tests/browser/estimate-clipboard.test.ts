import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { useEstimateSite } from './support/estimate-site.js';
import { type GridName, SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();
let sheet: SheetPage;

beforeEach(async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
});

afterEach(() => sheet.done());

/** A block as spreadsheets put it on the clipboard: tabs, line ends, cells in quotes where they hold either. */
const block = (...rows: string[][]): string => rows.map((row) => row.join('\t')).join('\r\n') + '\r\n';

describe('a block from a spreadsheet, pasted over the end of the lines', () => {
  test('becomes new lines, in one step of undo, with currency signs and thousands marks read exactly', async () => {
    const before = await sheet.estimate();
    await sheet.clickCell('Lines', 'Next line', 'Work');
    await sheet.paste(
      block(
        // Work, kind, positions, book, shared, charged, rate, quantity, cost, unit price
        ['"Hose 5/8"" to 3/4"", moulded"', 'new part', 'HX-1', '', '', '', '', '2', '$1,204.50', '"$1,999.99"'],
        ['Look for the rattle', 'labour', '', '1.25', '', '', 'Diagnosis', '', '', ''],
        ['Radiator flushed elsewhere', 'sublet', '', '', '', '', '', '', 'USD 80.00', ''],
        ['Old core handed in', 'fee', '', '', '', '', '', '', '', '(12.50)'],
        ['"Two lines\nin one cell"', 'note'],
        ['knock-sensor', 'operation'],
      ),
    );
    const { lines } = await sheet.estimate();
    expect(lines.slice(0, 2)).toEqual(before.lines);
    expect(lines.slice(2)).toMatchObject([
      { kind: 'part', title: 'Hose 5/8" to 3/4", moulded', number: 'HX-1', qty: '2', cost: '1204.50', unitPrice: '1999.99' },
      { kind: 'labour', title: 'Look for the rattle', hours: '1.25', labourClass: 'diagnosis' },
      { kind: 'sublet', title: 'Radiator flushed elsewhere', cost: '80.00', price: null },
      { kind: 'fee', title: 'Old core handed in', amount: '-12.50' },
      { kind: 'note', text: 'Two lines\nin one cell' },
      { kind: 'operation', operation: 'knock-sensor' },
    ]);
    const priced = await sheet.expectTotalOfEngine();
    expect(priced.complete).toBe(true);
    expect(priced.charges.find(({ title }) => title.startsWith('Hose 5/8'))?.amount).toBe('3999.98');
    expect(await sheet.said()).toMatch(/^Pasted \d+ cells/);

    await sheet.press('Control+z');
    expect(await sheet.estimate()).toEqual(before);
    await sheet.press('Control+y');
    expect((await sheet.estimate()).lines).toEqual(lines);
  });

  test('a block over rows that are there changes them and goes on below', async () => {
    await sheet.clickCell('Lines', 'Replace the injector O-rings', 'Work');
    const rows = (await sheet.rows('Lines')).length;
    // Down from the operation: its own row, its parts, then the spare row and beyond.
    const own = await sheet.column('Lines', 'Work');
    const from = own.indexOf('Replace the injector O-rings');
    await sheet.clickCell('Lines', 'Replace the injector O-rings', 'Quantity');
    const quantities = own.slice(from + 1, -1).map(() => ['3']);
    await sheet.paste(block(['9'], ...quantities, ['7'], ['8']));
    const estimate = await sheet.estimate();
    const line = estimate.lines[1]!;
    expect(line.kind === 'operation' && line.parts.map(({ qty }) => qty)).toEqual(quantities.flat());
    expect(estimate.lines.slice(2)).toMatchObject([
      { kind: 'part', qty: '7' },
      { kind: 'part', qty: '8' },
    ]);
    expect(await sheet.said()).toContain('1 cell cannot be changed and was left as it is.');
    expect((await sheet.rows('Lines')).length).toBe(rows + 2);
    await sheet.press('Control+z');
    expect((await sheet.estimate()).lines).toHaveLength(2);
  });
});

test('a block pasted into the findings makes findings and their lines in one step', async () => {
  const before = await sheet.estimate();
  await sheet.clickCell('Findings', 'Next finding', 'Component');
  await sheet.paste(
    block(
      ['Heater hose', 'feed', 'seeps at the joint', 'dye trace; by hand', 'now', '3'],
      ['Heater hose', 'return', 'Swollen and soft', 'by hand', 'soon', '3'],
      ['Glove box', '', 'hinge broken', 'by eye', 'watch', '3'],
    ),
  );
  const after = await sheet.estimate();
  expect(after.findings.slice(2)).toMatchObject([
    {
      component: 'heater-hose',
      position: 'feed',
      fault: 'seeps at the joint',
      seen: [{ how: 'dye trace' }, { how: 'by hand' }],
      urgency: 'now',
      round: 3,
    },
    { component: 'heater-hose', position: 'return', fault: 'Swollen and soft', urgency: 'soon', round: 3 },
    { component: 'Glove box', fault: 'hinge broken', urgency: 'watch' },
  ]);
  expect(after.lines.slice(2)).toMatchObject([{ operation: 'heater-hose-one', positions: ['feed', 'return'], findings: ['f3', 'f4'] }]);
  expect(await sheet.cell('Findings', 'Glove box', 'Put right by').innerText()).toBe('unanswered');
  await sheet.expectTotalOfEngine();
  await sheet.press('Control+z');
  expect(await sheet.estimate()).toEqual(before);
});

describe('copy', () => {
  test('takes a block out as text that a spreadsheet reads', async () => {
    await sheet.clickCell('Lines', 'Replace the upper plenum gasket', 'Work');
    await sheet.press('Shift+ArrowRight', 'Shift+ArrowRight', 'Shift+ArrowRight', 'Shift+ArrowDown', 'Control+c');
    const [first, second] = (await sheet.clipboard()).split('\n').map((row) => row.split('\t'));
    expect(first).toEqual(['Replace the upper plenum gasket', 'operation', '', '2']);
    expect(second).toHaveLength(4);
    expect(await sheet.said()).toBe('Copied 2 rows by 4 columns.');
  });

  test('rows copied out and pasted at the end come in again as lines', async () => {
    await sheet.clickCell('Lines', 'Next line', 'Work');
    await sheet.paste(
      block(['Look for the rattle', 'labour', '', '1.25'], ['Clip, "wide"', 'used part', 'HX-2', '', '', '', '', '4', '1.10', '2.50']),
    );
    const rows = await sheet.column('Lines', 'Work');
    expect(rows.slice(-3)).toEqual(['Look for the rattle', 'Clip, "wide"', 'Next line']);
    await sheet.clickCell('Lines', 'Look for the rattle', 'Work');
    await sheet.press('Shift+End', 'Shift+ArrowDown', 'Control+c');
    await sheet.clickCell('Lines', 'Next line', 'Work');
    await sheet.press('Control+v');
    const { lines } = await sheet.estimate();
    expect(lines).toHaveLength(6);
    const content = (at: number) => ({ ...lines[at]!, id: '' });
    expect(content(4)).toMatchObject({ kind: 'labour', title: 'Look for the rattle', hours: '1.25' });
    expect(content(5)).toMatchObject({
      kind: 'part',
      title: 'Clip, "wide"',
      condition: 'used',
      number: 'HX-2',
      qty: '4',
      cost: '1.10',
      unitPrice: '2.50',
    });
    const priced = await sheet.expectTotalOfEngine();
    expect(priced.lines[4]!.amount).toBe(priced.lines[2]!.amount);
    expect(priced.lines[5]!.amount).toBe(priced.lines[3]!.amount);
  });
});

describe('an entry that cannot be used', () => {
  test('stays in its cell, marked, with the reason; the last good value still prices', async () => {
    const total = await sheet.total();
    const before = await sheet.estimate();
    await sheet.clickAndEnter('Lines', 'Replace the upper plenum gasket', 'Book h', 'two');
    const cell = sheet.cell('Lines', 'Replace the upper plenum gasket', 'Book h');
    expect(await cell.innerText()).toBe('two');
    expect(await cell.getAttribute('aria-invalid')).toBe('true');
    expect(await cell.getAttribute('aria-description')).toContain('"two" is not a figure. Type one, like 12.50.');
    expect(await sheet.said()).toBe('Replace the upper plenum gasket, Book h. Not used: "two" is not a figure. Type one, like 12.50.');
    expect(await sheet.total()).toBe(total);
    expect(await sheet.estimate()).toEqual(before);

    // F2 goes on from what was typed; a later entry puts it right.
    await cell.click();
    await sheet.press('F2');
    expect(await sheet.field().inputValue()).toBe('two');
    await sheet.press('Control+a');
    await sheet.enter('2.5');
    expect(await cell.getAttribute('aria-invalid')).toBe(null);
    expect((await sheet.estimate()).lines[0]).toMatchObject({ bookHours: '2.5' });
    expect(await sheet.total()).not.toBe(total);

    // Undo brings the bad entry back, and then the good value without it.
    await sheet.press('Control+z');
    expect(await cell.innerText()).toBe('two');
    await sheet.press('Control+z');
    expect(await cell.innerText()).toBe('2');
  });

  test('every kind of cell says what it takes', async () => {
    const before = await sheet.estimate();
    const total = await sheet.total();
    const cases: [grid: GridName, row: string, column: string, text: string, reason: RegExp][] = [
      ['Lines', 'Replace the upper plenum gasket', 'Book h', '-1', /below zero/],
      ['Lines', 'Replace the upper plenum gasket', 'Book h', '=1/3', /more digits/],
      ['Lines', 'Replace the upper plenum gasket', 'Book h', '=1/0', /./],
      ['Lines', 'Replace the upper plenum gasket', 'Book h', '1,5', /two ways/],
      ['Lines', 'Replace the upper plenum gasket', 'Rate', 'Painting', /labour class "Painting"/],
      ['Lines', 'Replace the upper plenum gasket', 'Tax', 'county', /no tax "county"/],
      ['Lines', 'Replace the upper plenum gasket', 'Decision', 'perhaps', /not a decision/],
      ['Lines', 'Replace the upper plenum gasket', 'Kind', 'gift', /not a kind of line/],
      ['Lines', 'Replace the upper plenum gasket', 'Work', 'Sing to it', /no operation called "Sing to it"/],
      ['Findings', 'Upper plenum', 'Urgency', 'later', /not an urgency/],
      ['Findings', 'Upper plenum', 'Round', '0', /not a test round/],
      ['Findings', 'Upper plenum', 'Put right by', 'Sing to it', /no operation called "Sing to it"/],
    ];
    for (const [grid, row, column, text, reason] of cases) {
      // By place, since the entry may be what the row is known by.
      const at = await sheet.row(grid, row).getAttribute('aria-rowindex');
      const cell = sheet.grid(grid).locator(`[aria-rowindex="${at}"] > [aria-colindex="${sheet.columnIndex(grid, column) + 1}"]`);
      await sheet.clickAndEnter(grid, row, column, text);
      expect(await cell.innerText()).toBe(text);
      expect(await cell.getAttribute('aria-invalid'), text).toBe('true');
      expect(await cell.getAttribute('aria-description')).toMatch(reason);
      expect(await sheet.estimate(), text).toEqual(before);
      expect(await sheet.total()).toBe(total);
      await sheet.press('Control+z');
      expect(await cell.getAttribute('aria-invalid'), text).toBe(null);
    }
  });

  test('many in one paste are all marked, counted aloud, and the good ones among them are used', async () => {
    await sheet.clickCell('Lines', 'Next line', 'Work');
    await sheet.paste(
      block(
        ['Clip', 'new part', '', '', '', '', '', 'some', '1.10'],
        ['Bolt', 'new part', '', '', '', '', '', '4', 'cheap'],
        ['Nut', 'new part', '', '', '', '', '', '6', '0.20'],
      ),
    );
    expect((await sheet.estimate()).lines.slice(2)).toMatchObject([
      { title: 'Clip', qty: '1', cost: '1.10' },
      { title: 'Bolt', qty: '4', cost: '0' },
      { title: 'Nut', qty: '6', cost: '0.20' },
    ]);
    expect(await sheet.grid('Lines').locator('tbody [aria-invalid=true]').allInnerTexts()).toEqual(['some', 'cheap']);
    expect(await sheet.said()).toContain('2 entries cannot be used and are marked.');
    await sheet.expectTotalOfEngine();
    await sheet.press('Control+z');
    expect((await sheet.estimate()).lines).toHaveLength(2);
    expect(await sheet.grid('Lines').locator('tbody [aria-invalid=true]').count()).toBe(0);
  });

  test('its reason comes up on hover and where the keyboard is', async () => {
    await sheet.clickAndEnter('Lines', 'Replace the upper plenum gasket', 'Book h', 'two');
    await sheet.page.mouse.move(0, 0);
    await sheet.press('ArrowUp');
    expect(await sheet.hint().innerText()).toContain('"two" is not a figure');
    await sheet.press('Escape');
    expect(await sheet.hint().count()).toBe(0);
    await sheet.press('ArrowRight');
    await sheet.cell('Lines', 'Replace the upper plenum gasket', 'Book h').hover();
    await sheet.hint().filter({ hasText: '"two" is not a figure' }).waitFor();
  });
});
