import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { useEstimateSite } from './support/estimate-site.js';
import { SheetPage } from './support/sheet-page.js';

const GASKET = 'Replace the upper plenum gasket';
const RINGS = 'Replace the injector O-rings';
const INJECTORS = 'Replace fuel injectors';

const here = useEstimateSite();
let sheet: SheetPage;

beforeEach(async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
});

afterEach(() => sheet.done());

// The worked check of the card (invented): plenum 1.2 h; gasket job 2.0 h, O-ring job 2.6 h; rate 150.00.
describe('two jobs under one plenum', () => {
  const hours = async (work: string) => {
    const row = (await sheet.rows('Lines')).find((it) => it['Work'] === work)!;
    return [row['Book h'], row['Shared h'], row['Charged h'], row['Amount']];
  };

  test('the plenum is paid once, and comes back to the gasket when the O-rings are declined', async () => {
    expect(await hours(GASKET)).toEqual(['2', '1.2', '0.8', '120.00']);
    expect(await hours(RINGS)).toEqual(['2.6', undefined, '2.6', '390.00']);
    expect(await sheet.figure('Labour')).toBe('510.00');
    const saved = sheet.element.getByRole('group', { name: 'Saved by doing it together' });
    expect((await saved.innerText()).replace(/\s+/g, ' ')).toBe('Saved by doing it together 1.2 h of labour paid once $180.00');
    await sheet.expectTotalOfEngine();

    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'dec');
    expect(await hours(GASKET)).toEqual(['2', undefined, '2', '300.00']);
    expect(await hours(RINGS)).toEqual(['2.6', undefined, undefined, undefined]);
    expect(await sheet.figure('Labour')).toBe('300.00');
    expect(await saved.count()).toBe(0);
    await sheet.expectTotalOfEngine();

    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'app');
    expect(await sheet.figure('Labour')).toBe('510.00');
  });

  test('what each line costs later on its own stands beside the total', async () => {
    const later = sheet.element.locator('[part=later]');
    await later.waitFor();
    const priced = await sheet.pricedInNode();
    const figures = (await later.locator('tbody').allInnerTexts()).map((text) => text.replace(/\s+/g, ' ').trim());
    expect(figures).toHaveLength(2);
    // Doing both now costs the sum of what they cost alone, less the extra of either.
    const [gasket, rings] = figures.map((text) =>
      text
        .match(/[\d.]+(?= |$)/g)!
        .slice(-3)
        .map(Number),
    );
    expect(gasket![1]! - gasket![0]!).toBeCloseTo(gasket![2]!, 9);
    expect(gasket![0]! + rings![1]!).toBeCloseTo(Number(priced.totals.total), 9);
    expect(rings![0]! + gasket![1]!).toBeCloseTo(Number(priced.totals.total), 9);
  });

  test('the shared cell names the carrying line, on hover, under the keyboard and to a screen reader', async () => {
    const cell = sheet.cell('Lines', GASKET, 'Shared h');
    const words = `Upper plenum off and on: 1.2 h, carried by “${RINGS}”`;
    expect(await cell.getAttribute('aria-description')).toBe(words);
    await cell.hover();
    await sheet.hint().waitFor();
    expect(await sheet.hint().innerText()).toBe(words);
    await sheet.page.mouse.move(0, 0);
    await sheet.hint().waitFor({ state: 'detached' });

    await sheet.tabTo('grid Lines');
    await sheet.goTo(GASKET, 'Shared h');
    expect(await sheet.hint().innerText()).toBe(words);
    await sheet.press('Escape');
    expect(await sheet.hint().count()).toBe(0);
    await sheet.goTo(RINGS, 'Shared h');
    expect(await sheet.hint().innerText()).toBe(`Carries 1.2 h of “Upper plenum off and on”, also for “${GASKET}”`);
  });

  test('the teardown picture is reached by keyboard, and Enter goes to the line', async () => {
    const own = `button ${GASKET}, own work 0.8 h, charged 0.8 h of 2 h`;
    await sheet.tabTo(own);
    const passed: string[] = [];
    for (let i = 0; i < 4; i += 1) {
      await sheet.press('ArrowRight');
      passed.push(await sheet.focused());
    }
    expect(passed).toEqual([
      `button A: Upper plenum off and on, 1.2 h, needed by 2 lines, carried by ${RINGS}`,
      `button B: Fuel rail off and on, 0.5 h, needed by 1 line, carried by ${RINGS}`,
      `button ${RINGS}, own work 0.9 h, charged 2.6 h of 2.6 h`,
      // At the end it stays.
      `button ${RINGS}, own work 0.9 h, charged 2.6 h of 2.6 h`,
    ]);
    await sheet.press('Enter');
    expect(await sheet.active()).toMatchObject({ grid: 'Lines', row: RINGS, column: 'Work' });
    await sheet.tabTo(`button ${RINGS}, own work 0.9 h, charged 2.6 h of 2.6 h`);
    await sheet.press('ArrowUp');
    expect(await sheet.focused()).toBe(own);
    await sheet.press('Enter');
    expect(await sheet.active()).toMatchObject({ grid: 'Lines', row: GASKET, column: 'Work' });
  });

  test('a press on a block goes to its line', async () => {
    await sheet.element.getByRole('button', { name: /^A: Upper plenum/ }).click();
    expect(await sheet.active()).toMatchObject({ grid: 'Lines', row: RINGS });
  });

  test('the tables say the same as the picture and the grid', async () => {
    await sheet.element.locator('summary', { hasText: 'As a table' }).click();
    const table = async (caption: string) =>
      (await sheet.element.getByRole('table', { name: caption }).getByRole('row').allInnerTexts()).map((row) =>
        row.split('\t').map((text) => text.trim()),
      );
    expect((await table('Access steps, each charged once')).slice(1)).toEqual([
      ['A', 'Upper plenum off and on', '1.2', RINGS, GASKET, '1.2'],
      ['B', 'Fuel rail off and on', '0.5', RINGS, 'no other line', '0'],
    ]);
    expect((await table('Operations and their hours')).slice(1)).toEqual([
      [GASKET, '2', '1.2', '0.8', '0.8', 'A', 'none'],
      [RINGS, '2.6', '0', '2.6', '0.9', 'A B', 'A B'],
    ]);
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'def');
    expect((await table('Operations and their hours')).slice(1)).toEqual([[GASKET, '2', '0', '2', '0.8', 'A', 'A']]);
  });
});

describe('remedies', () => {
  const operations = async () =>
    (await sheet.estimate()).lines.map((line) =>
      line.kind === 'operation' ? `${line.operation} for ${line.findings.join(' ')}` : line.kind,
    );

  test('an alternative is offered in the list and in words, and taken by keyboard', async () => {
    const cell = sheet.cell('Findings', 'Injector O-rings', 'Put right by');
    expect(await cell.innerText()).toBe(`${RINGS} (or …)`);
    expect(await cell.getAttribute('aria-description')).toBe(`Instead: ${INJECTORS}. Open the list to choose.`);
    await sheet.tabTo('grid Findings');
    await sheet.goTo('Injector O-rings', 'Put right by');
    await sheet.press('Enter');
    const options = (await sheet.list().getByRole('option').allInnerTexts()).map((text) => text.replace(/\s+/g, ' '));
    expect(options.slice(0, 2)).toEqual([`${RINGS} remedy`, `${INJECTORS} instead`]);
    await sheet.press('ArrowDown', 'Enter');
    expect(await operations()).toEqual(['plenum-gasket for f1', 'injectors for f2']);
    expect(await cell.innerText()).toBe(`${INJECTORS} (or …)`);
    await sheet.expectTotalOfEngine();
    await sheet.press('Control+z');
    expect(await operations()).toEqual(['plenum-gasket for f1', 'injector-o-rings for f2']);
  });

  test('and by the row menu', async () => {
    await sheet.cell('Findings', 'Injector O-rings', 'Fault').click({ button: 'right' });
    await sheet.chooseFromMenu(`Instead: ${INJECTORS}`);
    expect(await operations()).toEqual(['plenum-gasket for f1', 'injectors for f2']);
  });

  test('a finding without a remedy stays in sight as unanswered until a person answers it', async () => {
    await sheet.button('Add finding').click();
    await sheet.enter('Glove box');
    const cell = sheet.cell('Findings', 'Glove box', 'Put right by');
    expect(await cell.innerText()).toBe('unanswered');
    expect(await cell.getAttribute('aria-description')).toBe('Unanswered: say which component, and what is wrong with it.');
    await sheet.clickAndEnter('Findings', 'Glove box', 'Fault', 'hinge broken');
    expect(await cell.getAttribute('aria-description')).toMatch(/^Unanswered: the catalogue has no remedy for this\./);
    expect(await operations()).toEqual(['plenum-gasket for f1', 'injector-o-rings for f2']);
    // Nothing to propose: it is not promised either.
    expect(await sheet.element.getByRole('button', { name: /^Propose lines/ }).count()).toBe(0);

    await sheet.clickAndEnter('Findings', 'Glove box', 'Put right by', 'road test second');
    expect(await cell.innerText()).toBe('Road test with a second person');
    expect(await operations()).toEqual(['plenum-gasket for f1', 'injector-o-rings for f2', 'road-test for f3']);
  });

  test('a line that was worked on is never overwritten, nor taken away', async () => {
    await sheet.clickAndEnter('Lines', RINGS, 'Book h', '2.9');
    const [, edited] = (await sheet.estimate()).lines;
    await sheet.cell('Findings', 'Injector O-rings', 'Fault').click({ button: 'right' });
    await sheet.chooseFromMenu(`Instead: ${INJECTORS}`);
    expect(await operations()).toEqual(['plenum-gasket for f1', 'injector-o-rings for ', 'injectors for f2']);
    expect((await sheet.estimate()).lines[1]).toEqual({ ...edited, findings: [] });
    await sheet.press('Control+z');

    // Another fault with the same remedy, another position, all proposals: the typed hours stay.
    await sheet.clickAndEnter('Findings', 'Injector O-rings', 'Fault', 'hard and cracked');
    await sheet.button('Add finding').click();
    expect(await sheet.active()).toMatchObject({ row: 'Next finding', column: 'Component' });
    await sheet.enter('injector o-rings suck air');
    const { lines } = await sheet.estimate();
    expect(lines).toHaveLength(2);
    expect(lines[1]).toMatchObject({ operation: 'injector-o-rings', bookHours: '2.9', findings: ['f2', 'f3'] });
  });

  test('what has been decided on is left alone: a new finding of the same work gets a line of its own', async () => {
    await sheet.clickAndEnter('Lines', RINGS, 'Decision', 'app');
    await sheet.button('Add finding').click();
    await sheet.enter('injector o-rings suck air');
    const { lines } = await sheet.estimate();
    expect(lines.map((line) => line.kind === 'operation' && [line.operation, line.findings, line.decision])).toEqual([
      ['plenum-gasket', ['f1'], 'proposed'],
      ['injector-o-rings', ['f2'], 'approved'],
      ['injector-o-rings', ['f3'], 'proposed'],
    ]);
  });
});
