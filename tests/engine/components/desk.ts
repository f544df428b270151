import { Gesture, type Reference, type SheetView } from '../../../components/estimate/context.js';
import { editFindings } from '../../../components/estimate/finding-edits.js';
import { findingRows } from '../../../components/estimate/finding-rows.js';
import { editLines } from '../../../components/estimate/line-edits.js';
import { lineRows } from '../../../components/estimate/line-rows.js';
import { SheetModel } from '../../../components/estimate/sheet-model.js';
import type { SheetEdit, SheetRow } from '../../../components/grid/sheet.js';
import type { Estimate } from '../../../src/documents/estimate.js';
import { EstimateStore } from '../../../src/store/estimate-store.js';
import { aCatalogue, anEstimate, anOperation, aPart, aRateCard, aStep, aTax, readDocuments } from '../../support/builders.js';
import type { EstimateDoc, LineDoc, RatesDoc } from '../../support/oracle-documents.js';

/**
 * Two hoses and a pump behind one drain of 0.6 h; rates 100.00 and 120.00; parts at cost plus half. All invented.
 */
const catalogue = aCatalogue({
  components: [
    { id: 'hose', title: 'Heater hose', positions: ['feed', 'return'] },
    { id: 'pump', title: 'Water pump', positions: [] },
    { id: 'box', title: 'Glove box', positions: [] },
  ],
  remedies: [
    { component: 'hose', fault: 'seeps at the joint', operations: ['hose-one'], instead: [['hose-set']] },
    { component: 'hose', fault: 'split', operations: ['hose-one'], instead: [] },
    { component: 'pump', fault: 'weeps', operations: ['pump'], instead: [['pump', 'belt']] },
  ],
  parts: [
    aPart('tube', '20.00', { title: 'Hose', number: 'H-1' }),
    aPart('pump', '80.00', { title: 'Pump', number: 'P-1', core: '15.00', condition: 'rebuilt' }),
  ],
  steps: [aStep('drain', '0.6', { title: 'Drain and refill' })],
  operations: [
    anOperation('hose-one', '1.4', {
      title: 'Replace a heater hose',
      additionalHours: '0.2',
      steps: ['drain'],
      parts: [{ part: 'tube', qty: '1', each: true }],
      fees: ['disposal'],
    }),
    anOperation('hose-set', '1.9', {
      title: 'Replace the heater hose set',
      steps: ['drain'],
      includes: ['hose-one'],
      parts: [{ part: 'tube', qty: '2', each: false }],
    }),
    anOperation('pump', '2.6', { title: 'Replace the water pump', steps: ['drain'], parts: [{ part: 'pump', qty: '1', each: false }] }),
    anOperation('belt', '0.4', { title: 'Replace the drive belt' }),
  ],
});

const rates = aRateCard({
  labourClasses: [
    { id: 'general', title: 'General repair', rate: '100.00' },
    { id: 'electrical', title: 'Electrical work', rate: '120.00' },
  ],
  parts: { basis: 'markup', mode: 'whole', tiers: [{ percent: '50' }] },
  sublet: { percent: '20' },
  fees: [{ id: 'disposal', title: 'Disposal', amount: '3.00', per: 'unit' }],
  taxes: [aTax('state', '5', { title: 'State tax', on: ['part'] }), aTax('city', '1', { title: 'City tax', on: ['part'] })],
});

/** A sheet without a page: entries go in as the grids send them, and the rows come out as the grids get them. */
export class Desk {
  readonly store: EstimateStore;
  readonly model: SheetModel;

  constructor(lines: (LineDoc & { note?: string })[] = [], more: Partial<EstimateDoc> = {}, card: Partial<RatesDoc> = {}) {
    const read = readDocuments({ estimate: anEstimate(lines, more), catalogue, rates: { ...rates, ...card } });
    this.store = new EstimateStore(read.estimate);
    this.model = new SheetModel(this.store, read.catalogue, read.rates);
  }

  get reference(): Reference {
    return this.model.reference;
  }

  get view(): SheetView {
    return this.model.view();
  }

  get estimate(): Estimate {
    return this.store.getState().estimate;
  }

  /** One gesture in a grid, as one step of undo; gives back why entries were refused. */
  edit(grid: 'lines' | 'findings', ...edits: SheetEdit[]): readonly string[] {
    const gesture = new Gesture(this.store.getState());
    (grid === 'lines' ? editLines : editFindings)(edits, gesture, this.reference);
    this.store.dispatch(gesture.commands, 'entry');
    return gesture.refused;
  }

  /** One typed cell. */
  type(row: string, column: string, text: string): readonly string[] {
    return this.edit(row.startsWith('findings:') ? 'findings' : 'lines', { row, column, text });
  }

  /** Rows of entries below the last line or finding, as a paste over the end sends them. */
  paste(grid: 'lines' | 'findings', ...rows: Record<string, string>[]): readonly string[] {
    const edits = rows.flatMap((row, extra) => Object.entries(row).map(([column, text]) => ({ row: null, extra, column, text })));
    return this.edit(grid, ...edits);
  }

  lines(): SheetRow[] {
    return lineRows(this.view);
  }

  findings(): SheetRow[] {
    return findingRows(this.view);
  }

  /** The texts of one row, by column; empty ones are left out. */
  texts(row: string): Record<string, string> {
    const found = [...this.lines(), ...this.findings()].find(({ id }) => id === row);
    if (found === undefined) throw new Error(`There is no row ${row}.`);
    return Object.fromEntries(Object.entries(found.cells).flatMap(([column, { text }]) => (text === '' ? [] : [[column, text]])));
  }

  cell(row: string, column: string) {
    const found = [...this.lines(), ...this.findings()].find(({ id }) => id === row)?.cells[column];
    if (found === undefined) throw new Error(`There is no cell ${row} ${column}.`);
    return found;
  }
}
