export { createSheet } from './create.js';
export { sheetStyles } from './library.styles.js';
export type * from './sheet.js';
