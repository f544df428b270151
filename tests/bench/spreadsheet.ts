import { HyperFormula, type RawCellContent, type SimpleCellAddress } from 'hyperformula';
import type { Flat, FlatPart } from './flat.js';

/** The estimate as a workbook in a general formula engine, and the cells that the bench edits and reads. */
export interface Workbook {
  readonly engine: HyperFormula;
  readonly total: SimpleCellAddress;
  readonly priced: (line: number) => SimpleCellAddress;
  readonly hours: (line: number) => SimpleCellAddress;
  readonly firstPartPrice: (line: number) => SimpleCellAddress;
  readonly discount: SimpleCellAddress;
}

/**
 * The workbook that somebody who knows spreadsheets would build by hand: a sheet of lines, one of the access steps that
 * each line needs, one of its parts, and the totals. A step counts where it stands first among the priced lines; its
 * rows are in order of precedence, so that the line which carries it comes first. Two things are easier than the
 * engine's rules and in the workbook's favour: that order is fixed (other book hours do not change who carries), and
 * a discount is taken from the sum, not spread over the charges. Its figures are floating point.
 */
export function workbook({ lines, steps, precedence }: Flat): Workbook {
  const lineRows: RawCellContent[][] = lines.map(() => []);
  const stepRows: RawCellContent[][] = [];
  const partRows: RawCellContent[][] = [];
  const ownParts = new Map<number, number>();

  for (const i of precedence) {
    const line = lines[i]!;
    const firstStep = stepRows.length + 1;
    for (const step of line.steps) stepRows.push(stepRow(stepRows.length + 1, i, step, steps[step]!));
    const stepsOf = (column: string): string => sumOf(line.steps.length, `Steps!${column}${firstStep}:${column}${stepRows.length}`);

    const firstPart = partRows.length + 1;
    ownParts.set(i, partRows.length);
    for (const part of line.parts) partRows.push(partRow(partRows.length + 1, i, part));
    const partsOf = sumOf(line.parts.length, `Parts!D${firstPart}:E${partRows.length}`);

    const row = i + 1;
    lineRows[i] = [
      1, // A: 1 where the line is priced
      Number(line.hours), // B: book hours
      Number(line.rate), // C: labour rate
      `=IF(A${row}=1,${stepsOf('D')},0)`, // D: shared hours
      `=IF(A${row}=1,B${row}-D${row},0)`, // E: charged hours
      `=ROUND(E${row}*C${row},2)`, // F: labour
      `=F${row}+${partsOf}+${stepsOf('G')}+${stepsOf('H')}`, // G: amount of the line
      line.asksFee ? `=A${row}` : 0, // H: 1 where it asks for the fee
    ];
  }

  const engine = HyperFormula.buildFromSheets(
    { Lines: lineRows, Steps: stepRows, Parts: partRows, Totals: totals(lines.length, stepRows.length, partRows.length) },
    { licenseKey: 'gpl-v3' },
  );
  const cell = (sheet: string, row: number, col: number): SimpleCellAddress => ({ sheet: engine.getSheetId(sheet)!, row, col });
  return {
    engine,
    total: cell('Totals', 8, 0),
    discount: cell('Totals', 9, 0),
    priced: (line) => cell('Lines', line, 0),
    hours: (line) => cell('Lines', line, 1),
    firstPartPrice: (line) => cell('Parts', ownParts.get(line)!, 2),
  };
}

function stepRow(row: number, line: number, step: number, { hours, parts }: Flat['steps'][number]): RawCellContent[] {
  if (parts.length > 1) throw new Error('the workbook has room for one part of a step');
  const [part] = parts;
  const isFirst = row === 1 ? '1' : `IF(COUNTIFS(A$1:A${row - 1},A${row},B$1:B${row - 1},1)=0,1,0)`;
  return [
    step, // A
    `=Lines!A${line + 1}`, // B: whether its line is priced
    `=IF(B${row}=1,${isFirst},0)`, // C: 1 where the line carries it
    `=IF(AND(B${row}=1,C${row}=0),${hours},0)`, // D: shared hours
    part === undefined ? 0 : Number(part.qty), // E
    part === undefined ? 0 : unitPrice(part), // F
    part === undefined ? 0 : `=C${row}*ROUND(E${row}*F${row},2)`, // G: amount
    part === undefined ? 0 : `=C${row}*ROUND(E${row}*${part.core},2)`, // H: core charge
  ];
}

function partRow(row: number, line: number, part: FlatPart): RawCellContent[] {
  return [
    `=Lines!A${line + 1}`, // A: whether its line is priced
    Number(part.qty), // B
    unitPrice(part), // C
    `=A${row}*ROUND(B${row}*C${row},2)`, // D: amount
    `=A${row}*ROUND(B${row}*${part.core},2)`, // E: core charge
  ];
}

function unitPrice({ cost, unit }: FlatPart): RawCellContent {
  if (unit !== null) return Number(unit);
  return `=ROUND(MIN(${cost},10)*2+MAX(0,MIN(${cost},50)-10)*1.7+MAX(0,MIN(${cost},200)-50)*1.45+MAX(0,${cost}-200)*1.3,2)`;
}

function totals(lines: number, steps: number, parts: number): RawCellContent[][] {
  return [
    [`=SUM(Lines!F1:F${lines})`], // A1: labour
    [`=SUM(Parts!D1:D${parts})+SUM(Steps!G1:G${steps})`], // A2: parts
    [`=SUM(Parts!E1:E${parts})+SUM(Steps!H1:H${steps})`], // A3: cores
    [`=IF(SUM(Lines!H1:H${lines})>0,6.5,0)`], // A4: fee
    ['=ROUND(A1*0.06,2)'], // A5: supplies
    ['=ROUND((A2+A3+A5)*0.0425,2)'], // A6: state tax
    ['=ROUND((A2+A3+A5)*0.015,2)'], // A7: local tax
    ['=ROUND(A1*A10,2)'], // A8: discount
    ['=A1+A2+A3+A4+A5-A8+A6+A7'], // A9: total
    [0], // A10: discount on labour, as a fraction
    [`=SUM(Lines!D1:D${lines})`], // A11: saved hours
  ];
}

function sumOf(count: number, range: string): string {
  return count === 0 ? '0' : `SUM(${range})`;
}
