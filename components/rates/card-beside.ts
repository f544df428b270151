/** What stands beside the rate card: what it does to everyday work and to the prices of parts. */
export { examplesTable } from './card-examples.js';
export { markUpPanel, pricesTable, wayLabel } from './cliff-panel.js';
