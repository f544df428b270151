import type { SheetColumn } from '../grid/sheet.js';

export type FindingColumn = 'component' | 'position' | 'fault' | 'seen' | 'urgency' | 'round' | 'remedy' | 'text';

export const FINDING_COLUMNS: readonly (SheetColumn & { readonly id: FindingColumn })[] = [
  { id: 'component', title: 'Component', width: 150, help: 'Type in plain words what was found: “heater hose seep”' },
  { id: 'position', title: 'Position', width: 96 },
  { id: 'fault', title: 'Fault', width: 210 },
  { id: 'seen', title: 'Seen by', width: 140, help: 'How it was seen; several ways with a semicolon between' },
  { id: 'urgency', title: 'Urgency', width: 76, help: 'unsafe, now, soon or watch' },
  { id: 'round', title: 'Round', width: 60, align: 'end' },
  { id: 'remedy', title: 'Put right by', width: 220, help: 'The operations that answer the finding; alternatives are in the list' },
  { id: 'text', title: 'In words for the customer', width: 320 },
];

/** The row at the end that waits for the next finding. */
export const SPARE_FINDING = 'findings:+';
